#include "sim/practice/part.hpp"

#include <array>

namespace quarterturn::practice {

namespace {

Part part_of(Sense s) {
    switch (s) {
        case Sense::plate: return Part::plate;
        case Sense::sheet: return Part::instructions;
        case Sense::supply: return Part::gas_meter;
        case Sense::gas_switch: return Part::gas_switch;
        case Sense::orifice: return Part::orifice;
        case Sense::vent: return Part::terminal;
        case Sense::intake:
        case Sense::intake_sample: return Part::intake;
        case Sense::drain: return Part::drain;
        case Sense::flame: return Part::sight_glass;
        case Sense::exchanger: return Part::exchanger;
        case Sense::tube: return Part::reference_tube;
        case Sense::screws: return Part::gas_valve;
        case Sense::probe: return Part::test_port;
        case Sense::hose:
        case Sense::hose_test: return Part::hose;
        case Sense::trap:
        case Sense::filter: return Part::trap;
        case Sense::panel:
        case Sense::controls: return Part::controls;
        case Sense::fan: return Part::fan;
        case Sense::joint_test: return Part::gas_joints;
        case Sense::slip:
        case Sense::display:
        case Sense::work: return Part::analyzer;
        case Sense::meter: return Part::gas_meter;
        case Sense::manometer: return Part::test_points;
        case Sense::hot_tap: return Part::hot_tap;
        case Sense::ear:
        case Sense::nose:
        case Sense::room_monitor:
        case Sense::nose_unasked: return Part::room;
    }
    return Part::room;
}

Part part_of(Line l) {
    switch (l) {
        case Line::found:
        case Line::left:
        case Line::ambient: return Part::analyzer;
        case Line::standing:
        case Line::working:
        case Line::outlet:
        case Line::venturi: return Part::test_points;
        case Line::input: return Part::gas_meter;
    }
    return Part::job_sheet;
}

}  // namespace

std::string_view part_word(Part p) {
    constexpr std::array<std::string_view, kPartCount> words{
        "gas_meter",  "gas_tap",      "gas_joints", "test_points", "gas_valve",   "reference_tube", "orifice",
        "gas_switch", "terminal",     "intake",     "fan",         "sight_glass", "exchanger",      "test_port",
        "hose",       "trap",         "analyzer",   "room",        "hot_tap",     "drain",          "controls",
        "plate",      "instructions", "job_sheet",  "tray",        "top_bar"};
    return words[static_cast<std::size_t>(p)];
}

Part part_of(const Action& a) {
    switch (a.verb) {
        case Verb::gas: return Part::gas_tap;
        case Verb::test_joints: return Part::gas_joints;
        case Verb::manometer:
        case Verb::manometer_to: return Part::test_points;
        case Verb::cap:
        case Verb::seal: return Part::gas_valve;
        case Verb::turn: return a.as<ScrewTurn>().screw == ScrewId::sealed ? Part::gas_valve : Part::tray;
        case Verb::tool: return Part::tray;
        case Verb::repair_tube: return Part::reference_tube;
        case Verb::orifice: return Part::orifice;
        case Verb::gas_switch: return Part::gas_switch;
        case Verb::set_fan:
        case Verb::power:
        case Verb::forced_fire:
        case Verb::reset: return Part::controls;
        case Verb::port:
        case Verb::probe:
        case Verb::set_probe: return Part::test_port;
        case Verb::test_hose:
        case Verb::repair_hose: return Part::hose;
        case Verb::drain_trap:
        case Verb::change_filter: return Part::trap;
        case Verb::analyzer:
        case Verb::zero:
        case Verb::zero_outdoors:
        case Verb::fuel:
        case Verb::print: return Part::analyzer;
        case Verb::clear_drain: return Part::drain;
        case Verb::water: return Part::hot_tap;
        case Verb::windows:
        case Verb::tell:
        case Verb::get_out:
        case Verb::call:
        case Verb::listen:
        case Verb::smell: return Part::room;
        case Verb::look:
        case Verb::clock_meter:
        case Verb::sample_intake: return part_of(*sense_of(a));
        case Verb::record: return part_of(a.as<Line>());
        case Verb::enter:
        case Verb::strike:
        case Verb::remark:
        case Verb::cause:
        case Verb::also_cause:
        case Verb::decide:
        case Verb::hand_over:
        case Verb::leave: return Part::job_sheet;
        case Verb::hint:
        case Verb::make_safe: return Part::top_bar;
    }
    return Part::job_sheet;
}

}  // namespace quarterturn::practice
