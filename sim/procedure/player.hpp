// Who carries the procedure out: sees once a second, does at most one thing, and says what and why. The expert takes
// all the trouble; three others leave some of it out, and are what the marks are tried on.
#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include "sim/procedure/learner.hpp"

namespace quarterturn::procedure {

//! What the expert says: an identity, its sentence in ui/words.
enum class Speech : std::uint8_t {
    first_nose_and_eyes,
    found,  //!< what the finding of this moment says
    it_sounds,
    tube_back_on,
    orifice_out,
    switch_to_supplied,
    analyzer_on,
    hose_leaks,
    manometer_then_tap,
    joints_tight,
    co_in_this_air,
    zero_at_the_door,
    fuel_as_supplied,
    gas_tap_open,
    hot_tap_open,
    port_and_probe,
    high_fire_first,
    draw_all_the_way,
    tap_gives_too_little,
    working_too_low,
    working_too_high,
    working_good,
    standing_far_too_high,
    line_chokes,
    low_before_the_heater,
    supply_fell,
    meter_stands,
    input_is,
    reset_and_try,
    down_at_low_fire,
    drain_cleared,
    fan_set,
    high_as_found,
    now_low,
    outlet_next,
    outlet_is,
    low_as_found,
    nothing_needs_turning,
    as_left_is_as_found,
    cap_off_throttle,
    cap_off_offset,
    too_lean,  //!< which fire, CO2, CO, by how much, which screw, which way, how far
    too_rich,
    high_is_in,
    low_is_in,
    high_gone_again,
    high_as_left,
    smells_of_gas,
    room_co,
    locked_out,
    co_stays_high,
    tap_shut_windows_open,
    off_for_cause,
    windows_open_all_out,
    back_to_normal,
    probe_out,
    manometer_off_stopped,
    manometer_off_tested,
    once_more_lit,
    cause_written,
    stays_off,
    job_done
};

struct Said {
    std::int64_t step = 0;
    practice::Told<Speech> what;
    std::optional<Finding> finding;  //!< with found and it_sounds
};

//! What a player takes the trouble to do.
struct Manners {
    bool prepares = true;  //!< reads the papers, zeroes, sets the fuel, takes pressures
    bool looks = true;     //!< looks, listens, smells and tests; draws conclusions from what is found
    bool waits = true;     //!< lets readings settle
    bool closes = true;    //!< puts everything back and hands over
    bool reasons = true;   //!< draws conclusions from what was found, and repairs
    bool tells = true;     //!< takes the time to tell people
};
inline constexpr Manners kExpert{};
inline constexpr Manners kHasty{.waits = false, .tells = false};    //!< knows the job and has no patience
inline constexpr Manners kBlind{.looks = false, .reasons = false};  //!< turns screws whatever the cause
inline constexpr Manners kCareless{
    .prepares = false, .closes = false, .tells = false};  //!< neither prepares nor closes out
inline constexpr Manners kChecklist{.reasons = false};    //!< looks at everything and understands nothing

//! One of kPlayers; empty for another word.
std::optional<Manners> manners_of(std::string_view name);
inline constexpr std::array<std::string_view, 5> kPlayers{"expert", "hasty", "blind", "careless", "checklist"};

class Player {
public:
    explicit Player(const Papers& papers, Manners manners = kExpert, std::optional<Learner> learner = {})
        : papers_(papers), manners_(manners), learner_(learner) {}
    Player(const Player&) = delete;
    Player& operator=(const Player&) = delete;

    //! Asked once a second: what to do now, if anything. Whoever asks says by did() what was done.
    std::optional<Action> next(const Seen& seen);
    void did(const Action& a) { done_.push_back(a); }
    const std::vector<Said>& said() const { return said_; }

    // For the steps.
    const Papers& papers() const { return papers_; }
    const Seen& seen() const { return seen_; }
    const Manners& manners() const { return manners_; }
    View view() const { return {papers_, seen_, done_, stopping_for_, manners_.reasons && !runs_on()}; }
    //! A learner slips here; the expert never does. which: 0: each occasion anew.
    bool slips(Slip slip, std::uint64_t which = 0);
    //! The cause that is written down.
    Cause named(Cause meant) const { return learner_ ? learner_->named(meant) : meant; }
    bool stopping() const { return stopping_for_.has_value(); }
    void say(Speech what, std::vector<practice::Value> values = {});
    void say_found(const Finding& f, Speech what = Speech::found);
    Ask ask(std::optional<Action> a = {}) { return {stand_, a}; }
    Script work(Action a);  //!< and waits until the hands are free
    Script wait(double seconds);
    Script perceive(Action a);  //!< works, and says what was found if it means something
    Script arrive(Fire fire);   //!< waits until a reading at this fire can be trusted
    //! A fire is forced or a screw turned now: readings are waited for anew.
    void changed(bool by_a_turn);
    double since_change_s() const { return static_cast<double>(seen_.step - changed_) / kStepsPerSecond; }

private:
    bool runs_on() const { return learner_ && learner_->slips(Slip::runs_on, 1); }
    void watch();  //!< what an alert technician sees while doing something else
    bool takes_care(const Step& s) const;

    const Papers papers_;
    Manners manners_;
    std::optional<Learner> learner_;
    std::uint64_t occasion_ = 1000;
    Seen seen_;
    std::vector<Action> done_;
    Stand stand_;
    Script script_;
    std::optional<Cause> stopping_for_;
    std::array<int, kStepCount> performed_{};
    std::int64_t changed_ = 0;
    bool turned_here_ = false;
    std::vector<Said> said_;
};

}  // namespace quarterturn::procedure
