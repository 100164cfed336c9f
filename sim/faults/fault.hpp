// What can be wrong: how it changes the condition of things, by which signs it shows, and what a technician does about
// it. Each fault is one file beside this one and its line in fault_list.def; everything else follows from these.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "sim/faults/fault_id.hpp"
#include "sim/faults/sense.hpp"
#include "sim/gas/mixture.hpp"

namespace quarterturn::heater {
struct Condition;
}

namespace quarterturn::faults {

using gas::GasKind;
using heater::Condition;
struct Scene;

//! What a technician does about it.
enum class Remedy : std::uint8_t {
    repair,    //!< with what is in the bag: put it right and go on
    allow,     //!< nothing to put right: work with it
    report,    //!< not to be set or certified like this: stop and report, though nobody is in danger
    hand_over  //!< not a matter of screws and no appliance to be left running: stop, make safe, report
};

//! What it belongs to. Naming another cause of the same family is near, though wrong.
enum class Family : std::uint8_t {
    outside_air,   //!< vent, intake, wind: what stands in the way outside
    inside_air,    //!< fan, venturi, exchanger, drain: what stands in the way inside
    flue_joints,   //!< what leaks in or out of the flue
    supply,        //!< too little gas comes
    overpressure,  //!< too much pressure comes: nothing like the family above
    gas_parts,     //!< orifice, switch, valve and its screws
    burner,
    sampling,  //!< what the analyzer draws and makes of it
    room,
    gas_leak,
    water,
    controls
};

//! The repair that puts it right, as an identity; practice::repair_action makes it an action.
enum class Repair : std::uint8_t {
    none,
    tube,
    hose,
    probe,
    trap,
    filter,
    orifice,
    gas_switch,
    fuel,
    drain,
    fan_setting
};

//! One way a fault shows.
struct SignOf {
    Sense by;
    Sign sign;
    //! Is it there to be perceived in this scene? From the physical state, never from the name of a fault.
    bool (*shows)(const Scene&);
    //! Only where this gas is supplied; empty: always. What a part is stamped for means something only beside the gas.
    std::optional<GasKind> supplied{};
};

struct Fault {
    FaultId id;
    Family family;
    Remedy remedy;
    Repair repair = Repair::none;
    bool may_come_later = false;                  //!< can come or go by itself while one watches
    void (*worsen)(Condition&, double severity);  //!< severity 0..1
    void (*clear)(Condition&);                    //!< back to what is sound
    std::span<const SignOf> signs;
};

const Fault& fault(FaultId id);
//! All of them, in the order of the list.
const std::vector<const Fault*>& all_faults();
//! By its word; empty if it is none.
std::optional<FaultId> fault_by_word(std::string_view word);
std::optional<Cause> cause_by_word(std::string_view word);

//! Two causes of one family, not the same. The screws and a conversion belong to the gas parts.
bool are_near(Cause a, Cause b);

//! Not a technician's to repair here: the job ends with stopping.
inline bool calls_to_stop(const Fault& f) { return f.remedy == Remedy::report || f.remedy == Remedy::hand_over; }

//! What a technician may suspect behind a sign, beside the gas that is supplied: knowledge of the trade, not the truth.
std::vector<FaultId> suspected(Sign sign, GasKind supplied);
//! A sign that stands for something a technician has to act on.
inline bool points_to_a_fault(Sign sign, GasKind supplied) { return !suspected(sign, supplied).empty(); }

//! What this sense gets in this scene: the signs of faults that show, else what a sound thing looks like.
std::vector<Sign> perceive(Sense by, const Scene& scene);
//! The faults that show themselves by one of these signs in this scene.
std::vector<FaultId> shown_by(Sense by, std::span<const Sign> signs, const Scene& scene);
//! The signs of all faults that show without being asked for, with their faults.
struct Unasked {
    const Fault* fault;
    const SignOf* sign;
};
const std::vector<Unasked>& unasked_signs();
bool shows(const SignOf& s, const Scene& scene);
constexpr bool is_unasked(Sense s) { return s >= Sense::manometer; }
//! Limits that show by themselves whatever their cause; called once a second, so it writes into a list that is kept.
void add_unasked(Sense by, const Scene& s, std::vector<Sign>& out);
//! Could any of this fault's signs be perceived in this scene?
bool there_to_be_seen(const Fault& f, const Scene& scene);

}  // namespace quarterturn::faults
