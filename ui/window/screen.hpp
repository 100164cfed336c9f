// What the panels of the bench screen share: the state of the hands, the targets that can be pressed, the frame.
#pragma once

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "sim/practice/part.hpp"
#include "ui/window/layout.hpp"
#include "ui/window/parts.hpp"
#include "ui/window/seat.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

using heater::Fire;
using heater::ForcedFire;
using heater::kTicksPerTurn;
using heater::Stage;
using heater::Turn;
using practice::ScrewId;
using practice::Verb;
using words::say;
using words::tr;

struct Scroll;

//! Something that can be pressed by mouse or by Enter when it has the focus.
struct Target {
    Rect r;
    std::string name;  //!< stays the same from frame to frame: the focus follows it
    std::function<void()> press;
    bool modal = false;                              //!< belongs to the sheet on top
    bool out_of_sight = false;                       //!< scrolled away: Tab reaches it, the mouse does not
    Scroll* in = nullptr;                            //!< what it is scrolled with, where its page has several
    std::function<void(double x, double y)> drag{};  //!< while it is held and the mouse moves; empty: it cannot be
    std::string about{};  //!< said when the pointer rests on it or it has the focus: what it is, or why not now
};

enum class Sheet { none, report, leave, burner, water, record };
enum class TrendSpan { ten_minutes, two_minutes, all };
enum class Tab { trend, papers, parts };

//! What is being typed into the job sheet: a figure, or the remark.
struct Typing {
    std::optional<practice::Field> field;  //!< none: the remark
    std::string text;
};

//! What was known when a card was opened: what comes meanwhile is said at its foot.
struct OpenCard {
    std::optional<practice::Part> of;
    std::size_t findings = 0;
};

//! The trainee's hands and the window's own choices: everything that is not on the bench.
struct Hands {
    ScrewId held = ScrewId::throttle;  //!< throttle or offset
    int ticks = kTicksPerTurn / 4;
    Turn way = Turn::left;  //!< the way of the last turn: what the hatched arc shows
    Sheet sheet = Sheet::none;
    std::optional<practice::Part> part;  //!< whose card lies open
    std::set<int> marked;                //!< findings the trainee has marked as wrong, by number
    int report_tab = 0;                  //!< which half of the job sheet, where the window is too small for both
    int cause_group = 0;                 //!< whose causes the job sheet shows
    std::optional<Typing> typing{};
    Tab tab = Tab::trend;
    bool instructions_tab = false;  //!< small layout: which paper lies on top
    int page = 0;                   //!< single layout: which third of the drawing, or the tabs
    bool what_if = false;           //!< the what-if page is asked for
    bool settings = false;          //!< settings and keys are
    bool take_over = false;         //!< asked for while looking back
    bool to_marks = false;
    bool to_shelf = false;  //!< the demonstration is ended, or the attempt broken off to go on later
    TrendSpan span = TrendSpan::ten_minutes;
    bool evening = false;
    bool still = false;  //!< flames and fan do not move
    double text_scale = 1.0;
    std::string focus;    //!< name of the target with the keyboard; empty if none
    std::string pointed;  //!< name of the target the pointer rests on; empty if none
    std::string about;    //!< what is to be said of the one pointed at, or else of the one with the focus
    OpenCard card;
    double shown_angle = 0;  //!< of the held screw, while it turns [degrees]
};

struct Frame {
    Canvas& d;
    const Layout& l;
    Seat& s;
    Hands& h;
    std::vector<Target>& targets;
    const Seen& r;

    const Papers& papers() const { return s.papers(); }
    Target& target(const Rect& r_, std::string name, std::function<void()> press, bool modal = false) {
        return targets.emplace_back(Target{r_, std::move(name), std::move(press), modal});
    }
};

//! Angle of a screw from as found, clockwise positive [degrees].
double screw_angle(const heater::ScrewSpec& spec, int ticks_opening);
std::string one_decimal(double v);

// One panel each; every panel draws itself and adds its targets in reading order.
void top_bar(Frame& f);
void drawing_targets(Frame& f);
void readings_panel(Frame& f);
//! Single layout: which part of the drawing is in sight, or the tabs.
void page_cells(Frame& f);
void trend_panel(Frame& f, const Rect& r);
void papers_panel(Frame& f);
void tabbed_panel(Frame& f);
void tray(Frame& f);
//! In its place while an attempt is looked back at.
void look_back_panel(Frame& f);
void bottom_line(Frame& f);
void sheet_on_top(Frame& f);
void instruction_paper(Frame& f, const Rect& r, bool framed);
void job_paper(Frame& f, const Rect& r, bool framed);
//! The instruction sheet has been looked at: before that nothing of it is shown.
bool sheet_read(const Seen& r);
//! Low, off, high as three joined cells.
void forced_fire_cells(Frame& f, double x, double y, double w, bool modal);
std::string forced_fire_words(const Seen& r);
void change_draw(Seat& s, double by);
//! The remark that stands on the job sheet.
std::string remark_of(const Seat& s);
//! What a typed figure is in our units: pressures and inputs come in those in use, O2 as the CO2 it stands for.
double typed_value(const Papers& papers, practice::Field field, double typed);

}  // namespace quarterturn::window
