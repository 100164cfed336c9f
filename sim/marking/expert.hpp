// The expert: plays a lesson properly, from nothing but its papers and what it has seen, and says what it does and why.
// With worse manners it is one of the poor players that the marks are tried on.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/bench/history.hpp"
#include "sim/files/record.hpp"
#include "sim/marking/script.hpp"

namespace quarterturn {

struct Said {
    std::int64_t step;
    std::string text;
};

//! What a player takes the trouble to do.
struct Manners {
    bool prepares = true;  //!< reads the papers, zeroes, sets the fuel, takes pressures
    bool looks = true;     //!< looks, listens, smells and tests; draws conclusions from what is found
    bool waits = true;     //!< lets readings settle
    bool closes = true;    //!< puts everything back and hands over
};

//! Does everything.
inline constexpr Manners kExpert{};
//! Knows the job and has no patience.
inline constexpr Manners kHasty{.waits = false};
//! Turns screws whatever the cause.
inline constexpr Manners kBlind{.looks = false};
//! Skips preparing and closing out.
inline constexpr Manners kCareless{.prepares = false, .closes = false};

//! "expert", "hasty", "blind", "careless"; empty for another word.
std::optional<Manners> manners_of(std::string_view name);

class Expert {
public:
    //! Of the lesson only the papers are used: plate, sheet, the supply's marking.
    explicit Expert(const Scenario& lesson, double draw_l_min, Manners manners = kExpert);
    Expert(const Expert&) = delete;
    Expert& operator=(const Expert&) = delete;

    //! Asked once a second: what to do now, if anything.
    std::optional<Action> next(const Readings& r);
    const std::vector<Said>& said() const { return said_; }

private:
    // Scripts, in the order of the job.
    Script job();
    Script look_round();
    Script fit_parts();
    Script ready_the_analyzer();
    Script take_standing_pressure();
    Script light_it();
    Script read_as_found();
    Script adjust();
    Script trim(bool high);
    Script close_out();
    Script stop(std::string_view cause);
    // Pieces of them.
    Script look(Subject subject);
    Script work(Action a);
    Script wait(double seconds);
    Script arrive(Fire fire);

    Ask ask(std::optional<Action> a = {}) { return {stand_, a}; }
    void say(std::string text);
    //! What an alert technician sees while doing something else; empty if nothing.
    std::string_view alarm();
    const Finding* found(Verb v, std::uint8_t what = 0) const;
    double since_change_s() const { return static_cast<double>(r_.step - changed_) * kStep_s; }
    bool looks_wrong(Subject subject) const;
    bool in_band(bool high, double co2) const;

    Scenario lesson_;
    InstructionSheet sheet_;
    double draw_;
    Manners manners_;
    Readings r_;
    Stand stand_;
    Script script_;
    bool stopping_ = false;
    std::string_view cause_;    //!< what is to be put into the sheet
    std::string_view to_stop_;  //!< a script has found a reason to stop
    std::int64_t changed_ = 0;  //!< step of the last turn or change of fire
    bool turned_here_ = false;  //!< a screw was turned at this fire
    bool read_working_ = false;
    int low_pressure_s_ = 0;
    int turns_ = 0;
    std::vector<Said> said_;
};

//! Plays a whole attempt. Gives up after max_s of bench time.
std::vector<Said> play_expert(Attempt& attempt, double max_s = 5400,
                              const std::function<void(const Attempt&, const Action*)>& watch = {},
                              Manners manners = kExpert);

//! The same, written into a record to its end.
std::vector<Said> play_recorded(Attempt& attempt, RecordWriter& record, Manners manners = kExpert, double max_s = 5400);

}  // namespace quarterturn
