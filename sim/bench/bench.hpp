// The bench: one heater, one analyzer, one trainee's hands, one clock.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "sim/bench/room.hpp"
#include "sim/bench/scenario.hpp"
#include "sim/bench/truth.hpp"
#include "sim/faults/scene.hpp"
#include "sim/heater/heater.hpp"
#include "sim/practice/refusal.hpp"
#include "sim/practice/seen.hpp"

namespace quarterturn::bench {

using analyzer::AnalyzerState;
using faults::Scene;
using heater::Controls;
using heater::Heater;
using heater::HeaterState;
using heater::kStep_s;
using practice::Finding;
using practice::JobSheet;
using practice::Noticed;
using practice::Papers;
using practice::Reading;
using practice::Refused;
using practice::Seen;

//! What the hands are at.
struct Task {
    bool set = false;
    Action action;
    std::int64_t until = 0;
    double meter_m3 = 0;    //!< the gas meter when it began
    Fire fire = Fire::off;  //!< the fire held since; other once it changed
};

//! Everything that changes on the bench. Copying it is a snapshot: resume, rewind and branch from it. Its fields stand
//! in sim/bench/fields.hpp once more, for comparing: a field left out there does not compile.
struct BenchState {
    std::int64_t step = 0;
    HeaterState heater;
    Controls controls;  //!< the draw here is how far the hot tap is opened
    AnalyzerState analyzer;
    Condition condition;
    RoomState room;
    Tool tool = Tool::none;
    Task task;
    std::vector<Finding> findings;
    std::vector<Noticed> noticed;
    double meter_m3 = 0;            //!< what the gas meter has counted [m3]
    bool working_was_good = false;  //!< the working pressure has been inside the sheet's range at high fire
    JobSheet sheet;
    Outcome outcome = Outcome::none;
};

class Bench {
public:
    explicit Bench(Scenario scenario, std::uint64_t seed);

    //! Carries out an action now, its numbers rounded as its words round them. Says why if it cannot be done.
    Refused apply(const Action& a);
    //! Why this action cannot be done now, if it cannot. Changes nothing.
    Refused refusal(const Action& a) const;
    //! Advances by 20 ms.
    void step();
    void run(std::int64_t steps) {
        for (std::int64_t i = 0; i < steps; ++i) step();
    }

    Seen seen() const;
    Truth truth() const;
    Scene scene() const;
    //! The same, with what was counted or drawn for a finding: that belongs to it alone.
    Scene scene(const Finding& f) const;
    const Papers& papers() const { return *papers_; }
    bool ended() const { return state_.outcome != Outcome::none; }

    Fire fire() const;
    double draw_l_min() const;
    //! What the manometer shows where its hose is [Pa]; 0 if it is nowhere or there is no pressure.
    double manometer_pa() const;
    bool draw_enough() const;
    //! The trainee has smelt or found gas, or was told of it.
    bool gas_known() const;
    //! The display as it is now, as a reading of the job sheet.
    Reading reading_now() const;

    const BenchState& snapshot() const { return state_; }
    void restore(const BenchState& s);

    const Scenario& scenario() const { return *scenario_; }
    std::uint64_t seed() const { return seed_; }
    //! The heater as it stands now: faults come and go, parts are changed.
    const Heater& heater() const { return *heater_; }
    const Analyzer& analyzer() const { return *analyzer_; }

private:
    //! A fault that comes or goes.
    struct Change {
        std::int64_t step;
        const TimedFault* fault;
        bool comes;
    };
    void carry_out(const Action& a, const Task& task);
    //! The test point behind the tap stands open while a hose goes on or off.
    bool at_open_test_point() const;
    analyzer::Sample room_air() const;
    analyzer::Sample intake_air() const;
    analyzer::Sample at_tip() const;
    void change_faults();
    void notice();
    //! Makes the heater anew if its part of the condition has changed.
    void stand_anew();

    std::shared_ptr<const Scenario> scenario_;
    std::shared_ptr<const Papers> papers_;
    std::shared_ptr<const Appliance> appliance_;
    std::uint64_t seed_;
    std::vector<Change> changes_;
    std::size_t next_change_ = 0;
    std::shared_ptr<const Heater> heater_;
    std::shared_ptr<const Analyzer> analyzer_;
    BenchState state_;
    int throttle_found_ = 0, offset_found_ = 0;
};

}  // namespace quarterturn::bench
