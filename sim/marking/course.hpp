// The course of an attempt as the rules read it: what was done, what was perceived, what was true. Plain data, so that
// a rule can be tried by hand-made cases without a bench.
#pragma once

#include <vector>

#include "sim/bench/answer.hpp"
#include "sim/bench/history.hpp"

namespace quarterturn::marking {

using bench::AnalyzerReading;
using bench::Answer;
using bench::Competency;
using bench::End;
using bench::Event;
using bench::Moment;
using bench::RuleId;
using bench::Scenario;
using bench::Shown;
using faults::Cause;
using faults::FaultId;
using faults::Sense;
using faults::Sign;
using gas::GasKind;
using heater::Fire;
using heater::ForcedFire;
using heater::InstructionSheet;
using practice::Action;
using practice::Finding;
using practice::JobSheet;
using practice::kStepsPerSecond;
using practice::Outcome;
using practice::ScrewId;
using practice::Verb;

//! Seconds as steps.
constexpr std::int64_t seconds(double s) { return static_cast<std::int64_t>(s * kStepsPerSecond); }

//! Where a fire settles with screws and parts as they are.
struct Settled {
    bool flame = true;
    double co2_pct = 9, o2_pct = 5;
    double co_air_free_ppm = 50;
};

struct Course {
    // The lesson's terms.
    InstructionSheet sheet;
    std::string gas_name;
    GasKind supplied = GasKind::natural;  //!< the kind of gas by its CO2max
    GasKind right_parts = GasKind::natural;
    bool parts_asked = false;         //!< an orifice or switch for the other gas was there
    bool gas_complained_of = false;   //!< somebody said that it smells of gas
    bool line_worked_on = false;      //!< the gas line was opened before the attempt began
    bool valve_new = false;           //!< a gas valve was fitted before
    double heating_value_mj_m3 = 38;  //!< what a clocked meter is reckoned with
    double warm_up_s = 120;
    double co_tolerated_s = 60;
    Answer answer;
    // What was done and what happened.
    std::vector<Moment> moments;  //!< one a second
    std::vector<Event> events;
    std::vector<Finding> findings;
    std::vector<Shown> shown;
    // The end.
    JobSheet job_sheet;
    Outcome outcome = Outcome::none;
    heater::Condition condition;
    heater::Controls controls;
    double room_co_ppm = 0;
    Settled high, low;              //!< as left
    Settled found_high, found_low;  //!< the same parts, screws as found

    // What several rules ask. Turns are those of throttle and offset; a slip that was taken back at once is none.
    std::vector<const Event*> turns() const;
    const Event* first_turn() const;
    const Event* last_turn() const;
    //! The last time the burner was made to burn otherwise: a turn, a repair of what was wrong, a part; -1 never.
    std::int64_t last_change() const;
    //! That fire was seen settled after this step, with the probe in the flue.
    bool seen_settled_since(bool high, std::int64_t step) const;
    //! Readings recorded, or typed while the burner was held at their fire.
    std::vector<const Event*> readings() const;
    const Event* first(Verb v) const;
    //! When a flame was first tried for [steps]; -1 never.
    std::int64_t first_light() const;
    //! A sign that calls to stop was perceived, by its fault [steps]; -1 never. A raised reading of the room's air is a
    //! question first, no reason yet.
    std::int64_t stop_known() const;
    //! The same, and somebody is in danger from it.
    std::int64_t danger_known() const;
    //! At this step a screw stood elsewhere than it was found: a slip that was taken back is none.
    bool turned_at(std::int64_t step) const;
    //! A value of the job sheet was on the display while the burner was held at that fire, not before this step.
    bool was_shown(const practice::Reading& r, bool at_high, std::int64_t not_before) const;
    //! The manometer showed that pressure where it belongs: standing with no flame, working at high fire.
    bool pressure_was_shown(const practice::Noted& n, bool working) const;
    //! The meter was clocked while the burner was held at that fire, before the input was noted.
    bool input_was_clocked(const practice::Noted& n, bool at_high) const;
    //! And the figure is what it gave: at that fire, or less what it counted with this burner off.
    bool input_was_read(const practice::Noted& n, bool at_high) const;
    //! CO stood above its limit, truly or on the display: what brings it down waits for nothing.
    bool makes_co(const Event& e) const {
        return std::max(e.before.co_air_free_ppm, e.shown_co_ppm) > sheet.co_limit_ppm;
    }
    //! Something of a competency was done, so that there is something to judge.
    bool exercised(Competency c) const;
    //! Repairs that signs called for by the end and that were not done: of the appliance, or of the sample path.
    std::vector<FaultId> unrepaired(bool of_sample_path) const;
    bool ran() const;
    //! Both fires were read at least once: without that there is nothing to give credit for.
    bool measured() const;
    bool in_service() const { return outcome == Outcome::left_in_service; }
    bool made_safe() const { return outcome == Outcome::made_safe; }
    bool has_to_stop() const { return answer.end == End::stop; }
    const Finding* found_by(Sense by) const;
    //! Found before the burner was first asked to light, or at all if it never was.
    bool found_before_light(Sense by) const;
    //! How far it lies out of the band of that fire [points of CO2]; below zero: inside it.
    double beyond(const Settled& s, bool at_high) const;
    //! As found both fires lie in their bands by this margin [% CO2].
    bool found_in_bands(double margin) const;
    bool nothing_needed() const;
    //! As left a fire lies so far out that it cannot be overlooked.
    bool far_out() const;
    //! Any of these is right to name.
    std::vector<Cause> right_causes() const;
    bool cause_right() const;
    //! Something this trainee perceived has shown a right cause that was named.
    bool cause_shown() const;
    //! Stopped for a danger that showed itself so soon after the first flame that there was nothing to measure yet.
    bool stopped_before_measuring() const;
    //! Stopped as it had to be: off and shut, and the reason known and not guessed, whatever name it was given.
    bool justified_stop() const;
    //! Causes that have to be named together, as far as they have shown themselves.
    std::vector<Cause> to_be_named() const;
};

Course course_of(const bench::Attempt& attempt);

}  // namespace quarterturn::marking
