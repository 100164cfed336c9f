// What the procedure may know: the papers, what was perceived, and what one has done oneself. The truth cannot be
// reached from here; tests hold that.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "sim/practice/papers.hpp"
#include "sim/practice/seen.hpp"

namespace quarterturn::procedure {

using faults::Cause;
using faults::Sense;
using faults::Sign;
using heater::Fire;
using heater::ForcedFire;
using heater::Stage;
using practice::Action;
using practice::Finding;
using practice::kStepsPerSecond;
using practice::Papers;
using practice::ScrewId;
using practice::Seen;
using practice::Verb;

struct View {
    const Papers& papers;
    const Seen& seen;
    std::span<const Action> done;         //!< in order
    std::optional<Cause> stopping_for{};  //!< decided earlier; empty: conclude() says
    bool concludes = true;                //!< false: a player who looks at nothing and draws no conclusions

    //! When this was last done [steps]; -1 never.
    std::int64_t last(Verb v) const;
    //! The last setting of a throttle or offset screw [steps]; -1 never.
    std::int64_t last_turn() const;
    bool turned() const { return last_turn() >= 0; }
    //! The burner has been asked to run.
    bool started() const { return last(Verb::forced_fire) >= 0 || seen.sheet.found_high.set || seen.run_s > 0; }
    //! The last time the gas path was opened: an orifice fitted, a hose taken off the test point [steps]; -1 never.
    std::int64_t gas_path_opened() const;
    //! A finding by this sense that is newer than a moment.
    bool found_since(Sense by, std::int64_t step) const;
};

//! No flame on trial may be air in the line after work on it: a few resets pull it through before one concludes.
bool tries_left(const View& v);
//! The controls have locked out, and their display has not been read since.
bool lock_out_unread(const View& v);
//! What is to be looked at before one concludes from CO that is high in its band, or from a fire that went out; empty
//! if it has been.
std::optional<Sense> unlooked_after_co(const View& v);
std::optional<Sense> unlooked_after_out(const View& v);
//! CO above its limit where CO2 is right, settled: no screw brings that back.
bool co_high_in_band(const View& v);
//! What was found is not to be set or certified here: the reason to stop, if there is one.
std::optional<Cause> conclude(const View& v);
//! Both fires were found in their bands, CO under its limit: nothing is turned.
bool nothing_needs_turning(const View& v);
//! What the job sheet names: the reason to stop, all that was repaired, conversion, nothing, or adjustment. One at
//! least.
std::vector<Cause> causes_to_name(const View& v);
inline Cause cause_to_name(const View& v) { return causes_to_name(v).front(); }
//! The first of them that the job sheet does not name yet.
std::optional<Cause> unnamed_cause(const View& v);
//! Found and not repaired yet: what a repair is for; empty if nothing is left.
std::optional<faults::FaultId> unrepaired(const View& v);
//! Readings of both fires as left are newer than the last turn.
bool left_is_recorded(const View& v);

}  // namespace quarterturn::procedure
