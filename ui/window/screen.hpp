// What the panels of the bench screen share: the state of the hands, the targets that can be pressed, the frame.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "ui/window/layout.hpp"
#include "ui/window/parts.hpp"
#include "ui/window/session.hpp"

namespace quarterturn::window {

//! Something that can be pressed by mouse or by Enter when it has the focus.
struct Target {
    Rect r;
    std::string name;  //!< stays the same from frame to frame: the focus follows it
    std::function<void()> press;
    bool modal = false;  //!< belongs to the sheet on top
};

enum class Held { throttle, offset };
enum class Sheet { none, look_around, check, report, burner, water };
enum class Tab { trend, papers, parts };

//! The trainee's hands and the window's own choices: everything that is not on the bench.
struct Hands {
    Held held = Held::throttle;
    int ticks = kTicksPerTurn / 4;
    Turn way = Turn::left;  //!< the way of the last turn: what the hatched arc shows
    Sheet sheet = Sheet::none;
    int check_tab = 0;  //!< which of the check sheet's pages lies open
    Tab tab = Tab::trend;
    bool instructions_tab = false;  //!< small layout: which paper lies on top
    bool show_column = false;       //!< single layout
    bool evening = false;
    double text_scale = 1.0;
    std::string focus;       //!< name of the target with the keyboard; empty if none
    double shown_angle = 0;  //!< of the held screw, while it turns [degrees]
};

struct Frame {
    Canvas& d;
    const Layout& l;
    Session& s;
    Hands& h;
    std::vector<Target>& targets;
    const Readings& r;

    void target(const Rect& r_, std::string name, std::function<void()> press, bool modal = false) {
        targets.push_back({r_, std::move(name), std::move(press), modal});
    }
};

//! Angle of a screw from as found, clockwise positive [degrees].
double screw_angle(const ScrewSpec& spec, int ticks_opening);
std::string mbar(double pa);
std::string one_decimal(double v);
std::string clock_of_day(double seconds);
Action turn_action(Held held, Turn way, int ticks);

// One panel each; every panel draws itself and adds its targets in reading order.
void top_bar(Frame& f);
void drawing_targets(Frame& f);
void readings_panel(Frame& f);
void trend_panel(Frame& f, const Rect& r);
void papers_panel(Frame& f);
void tabbed_panel(Frame& f);
void tray(Frame& f);
void bottom_line(Frame& f);
void sheet_on_top(Frame& f);
void instruction_paper(Frame& f, const Rect& r, bool framed);
void job_paper(Frame& f, const Rect& r, bool framed);
//! The instruction sheet has been looked at: before that nothing of it is shown.
bool sheet_read(const Readings& r);
//! Low, normal, high as three joined cells.
void burner_segments(Frame& f, double x, double y, double w, bool modal);
std::string burner_words(const Readings& r);
void change_draw(Session& s, double by);

}  // namespace quarterturn::window
