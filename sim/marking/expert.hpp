// The expert: plays a lesson properly, from nothing but what a trainee can see, and says what it does and why.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sim/bench/history.hpp"

namespace quarterturn {

struct Said {
    std::int64_t step;
    std::string text;
};

class Expert {
public:
    //! The instruction sheet and the plate are all it is given.
    Expert(const Appliance& plate, double draw_l_min) : plate_(plate), draw_(draw_l_min) {}

    //! Asked once a second: what to do now, if anything. May be asked again at once after an action.
    std::optional<Action> next(const Readings& r);
    const std::vector<Said>& said() const { return said_; }

private:
    enum class Phase { prepare, settle, stamp_found_high, go_low, stamp_found_low, high, low, recheck, close, done };

    std::optional<Action> prepare(const Readings& r);
    std::optional<Action> close(const Readings& r);
    std::optional<Action> trim(const Readings& r, bool high);
    void say(const Readings& r, const std::string& text);
    void enter(Phase p, const Readings& r);
    bool arrived(const Readings& r, Fire fire) const;
    double seconds_in_phase(const Readings& r) const;

    Appliance plate_;
    double draw_;
    Phase phase_ = Phase::prepare;
    int prepared_ = 0;
    int closed_ = 0;
    std::int64_t since_ = 0;    //!< step at which the present waiting began
    bool turned_here_ = false;  //!< a screw was turned in this phase
    int rounds_ = 0;
    std::vector<Said> said_;
};

//! Plays a whole attempt with the expert. Gives up after max_s of bench time.
std::vector<Said> play_expert(Attempt& attempt, double max_s = 5400,
                              const std::function<void(const Attempt&, const Action*)>& watch = {});

}  // namespace quarterturn
