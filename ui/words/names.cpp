// Names of things, as the trade says them.
#include "sim/bench/actions.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::words {

using faults::Cause;
using faults::FlameShape;
using faults::Remedy;
using faults::Sense;
using practice::ScrewId;
using practice::Verb;

std::string name(Cause c) {
    switch (c) {
        case Cause::nothing: return tr("nothing was wrong");
        case Cause::adjustment: return tr("screws out of adjustment");
        case Cause::conversion: return tr("conversion to the other gas");
        case Cause::supply_low: return tr("supply line chokes");
        case Cause::vent_blocked: return tr("vent blocked");
        case Cause::intake_blocked: return tr("intake blocked");
        case Cause::fouled_exchanger: return tr("heat exchanger fouled");
        case Cause::reference_tube_off: return tr("reference tube off");
        case Cause::supply_high: return tr("supply pressure too high");
        case Cause::supply_falls: return tr("supply falls when others draw");
        case Cause::wind: return tr("wind on the terminal");
        case Cause::flue_in_intake: return tr("flue gas in the intake");
        case Cause::orifice_other_gas: return tr("orifice for the other gas");
        case Cause::gas_switch_wrong: return tr("gas-type switch wrong");
        case Cause::sealed_screw: return tr("sealed screw disturbed");
        case Cause::backlash: return tr("worn screws");
        case Cause::joint_leak: return tr("flue joint leaks");
        case Cause::spillage: return tr("flue gas spills into the room");
        case Cause::gas_leak: return tr("gas joint leaks");
        case Cause::room_co: return tr("CO from another source");
        case Cause::draw_low: return tr("too little water");
        case Cause::sample_leak: return tr("sample hose leaks");
        case Cause::probe_shallow: return tr("probe not deep enough");
        case Cause::trap_full: return tr("water trap full");
        case Cause::filter_clogged: return tr("sample filter clogged");
        case Cause::o2_cell_aged: return tr("oxygen cell aged");
        case Cause::co_cell_aged: return tr("CO cell aged");
        case Cause::wrong_fuel: return tr("analyzer set to the wrong fuel");
        case Cause::drain_blocked: return tr("condensate drain blocked");
        case Cause::deck_soiled: return tr("burner deck soiled");
        case Cause::deck_gasket: return tr("burner gasket leaks");
        case Cause::fan_soiled: return tr("fan soiled");
        case Cause::venturi_soiled: return tr("venturi mixer soiled");
        case Cause::screen_clogged: return tr("screen in the gas valve clogged");
        case Cause::air_in_line: return tr("air in the gas line");
        case Cause::regulator_droops: return tr("supply regulator droops");
        case Cause::electrode_worn: return tr("flame electrode worn");
        case Cause::fan_setting_wrong: return tr("fan-speed setting wrong");
        case Cause::neighbour_on_meter: return tr("another appliance on the meter");
    }
    return {};
}

std::string meaning(Cause c) {
    switch (c) {
        case Cause::nothing: return tr("Both fires were in their bands as found.");
        case Cause::adjustment: return tr("A screw stood wrong; nothing else was the matter.");
        case Cause::conversion: return tr("Parts and settings of the other gas had to be fitted.");
        case Cause::supply_low:
            return tr(
                "The supply line chokes: up to 15 times its resistance, so the pressure is right standing and low when "
                "working.");
        case Cause::vent_blocked: return tr("The vent is nearly shut: up to 20 times its resistance.");
        case Cause::intake_blocked: return tr("The intake is nearly shut: up to 20 times its resistance.");
        case Cause::fouled_exchanger: return tr("The heat exchanger is fouled: up to 3 times its resistance.");
        case Cause::reference_tube_off:
            return tr("The governor's reference tube has come off; severity does not matter.");
        case Cause::supply_high: return tr("The supply pressure is up to 3000 Pa too high.");
        case Cause::supply_falls: return tr("Other appliances take up to 1700 Pa off the supply while they run.");
        case Cause::wind: return tr("Wind of up to 40 Pa stands against the terminal.");
        case Cause::flue_in_intake: return tr("Up to a tenth of the intake air is the heater's own flue gas.");
        case Cause::orifice_other_gas: return tr("The orifice of the other gas is fitted: down to 0.655 of the area.");
        case Cause::gas_switch_wrong:
            return tr("The gas-type switch stands on the other gas: fan speeds up to a tenth too low.");
        case Cause::sealed_screw:
            return tr(
                "Somebody turned the factory-sealed ratio screw: the outlet follows down to 0.8 of the depression.");
        case Cause::backlash: return tr("The screws are worn: up to ten times the lost motion.");
        case Cause::joint_leak:
            return tr(
                "The flue leaks at a joint before the test port: under suction up to a fifth of air gets in, pushed up "
                "to a fifth of the flue gas gets out.");
        case Cause::spillage: return tr("Up to a fifth of the flue gas spills into the room.");
        case Cause::gas_leak: return tr("A joint behind the gas tap leaks up to 0.3 m3/h into the room.");
        case Cause::room_co: return tr("Another source keeps up to 120 ppm of CO in the room's air.");
        case Cause::draw_low: return tr("The water supply chokes: from 40 down to 4 L/min.");
        case Cause::sample_leak: return tr("The sample hose draws in up to 30 % of room air.");
        case Cause::probe_shallow:
            return tr("The probe's depth stop is too short: up to a quarter of what it draws is air from the port.");
        case Cause::trap_full: return tr("The analyzer's water trap is up to full.");
        case Cause::filter_clogged:
            return tr("The sample filter is clogged: up to nine times the resistance of a clean sample path.");
        case Cause::o2_cell_aged:
            return tr(
                "The oxygen cell gives up to a tenth less signal until it is zeroed, and answers three times slower.");
        case Cause::co_cell_aged: return tr("The CO cell gives up to half its signal and answers three times slower.");
        case Cause::wrong_fuel: return tr("The analyzer is set to the other fuel; severity does not matter.");
        case Cause::drain_blocked:
            return tr(
                "The condensate drain is blocked: up to all of the condensate stays in the heat exchanger and hinders "
                "the gas.");
        case Cause::deck_soiled: return tr("Dust has shut up to four tenths of the burner deck's ports.");
        case Cause::deck_gasket:
            return tr("The burner deck's gasket leaks: up to 1.5 % of the mixture slips past the flame.");
        case Cause::fan_soiled: return tr("The fan is matted with dust: it has lost up to 45 % of its pressure.");
        case Cause::venturi_soiled:
            return tr("A deposit narrows the venturi's throat by up to an eighth, so it asks for more gas.");
        case Cause::screen_clogged:
            return tr(
                "The screen at the valve's inlet is clogged: up to three and a half times the resistance of the open "
                "valve.");
        case Cause::air_in_line: return tr("Up to 12 L of air stand in the line after work on it: first lights fail.");
        case Cause::regulator_droops:
            return tr("The regulator gives up to 1800 Pa at high fire, in proportion to the flow.");
        case Cause::electrode_worn: return tr("The electrode has lost up to nine tenths of the flame current.");
        case Cause::fan_setting_wrong:
            return tr(
                "The fan-speed setting is for another altitude or vent length: down to 0.85 of the right speeds.");
        case Cause::neighbour_on_meter: return tr("Another appliance draws up to 2 m3/h through the same meter.");
    }
    return {};
}

std::string name(Remedy r) {
    switch (r) {
        case Remedy::repair: return tr("repair it and go on");
        case Remedy::allow: return tr("work with it");
        case Remedy::report: return tr("stop and report");
        case Remedy::hand_over: return tr("stop, make safe, hand over");
    }
    return {};
}

std::string name(Sense s) {
    switch (s) {
        case Sense::plate: return tr("rating plate");
        case Sense::sheet: return tr("instruction sheet");
        case Sense::supply: return tr("gas supply");
        case Sense::gas_switch: return tr("gas-type switch");
        case Sense::orifice: return tr("orifice");
        case Sense::vent: return tr("vent");
        case Sense::intake: return tr("intake");
        case Sense::drain: return tr("condensate drain");
        case Sense::flame: return tr("flame");
        case Sense::exchanger: return tr("heat exchanger");
        case Sense::tube: return tr("reference tube");
        case Sense::screws: return tr("screws and seal");
        case Sense::probe: return tr("probe");
        case Sense::hose: return tr("sample hose");
        case Sense::trap: return tr("water trap");
        case Sense::filter: return tr("sample filter");
        case Sense::panel: return tr("display of the controls");
        case Sense::fan: return tr("fan and venturi mixer");
        case Sense::ear: return tr("sound");
        case Sense::nose: return tr("smell");
        case Sense::joint_test: return tr("gas joints");
        case Sense::hose_test: return tr("sample hose, tested");
        case Sense::slip: return tr("slip");
        case Sense::meter: return tr("gas meter");
        case Sense::intake_sample: return tr("sample from the intake");
        case Sense::manometer: return tr("manometer");
        case Sense::room_monitor: return tr("room monitor");
        case Sense::nose_unasked: return tr("smell in the room");
        case Sense::hot_tap: return tr("hot tap");
        case Sense::display: return tr("analyzer's display");
        case Sense::controls: return tr("controls");
        case Sense::work: return tr("the work itself");
    }
    return {};
}

std::string name(bench::Competency c) {
    switch (c) {
        case bench::Competency::prepare: return tr("prepare");
        case bench::Competency::measure: return tr("measure");
        case bench::Competency::adjust: return tr("adjust");
        case bench::Competency::judge: return tr("judge");
        case bench::Competency::safety: return tr("safety");
        case bench::Competency::close_out: return tr("close out");
    }
    return {};
}

std::string name(ScrewId s) {
    switch (s) {
        case ScrewId::throttle: return tr("throttle screw");
        case ScrewId::offset: return tr("offset screw");
        case ScrewId::sealed: return tr("sealed ratio screw");
    }
    return {};
}

std::string name(heater::Turn t) { return t == heater::Turn::left ? tr("left") : tr("right"); }

std::string name(heater::TestPoint p) {
    switch (p) {
        case heater::TestPoint::none: return tr("off");
        case heater::TestPoint::inlet: return tr("inlet");
        case heater::TestPoint::outlet: return tr("outlet");
        case heater::TestPoint::venturi: return tr("venturi");
    }
    return {};
}

std::string name(heater::Figure f) { return f == heater::Figure::co2 ? tr("CO2") : tr("O2"); }

std::string name(heater::Tool t) {
    switch (t) {
        case heater::Tool::none: return tr("empty hand");
        case heater::Tool::flat: return tr("flat screwdriver");
        case heater::Tool::hex: return tr("hex driver");
        case heater::Tool::star: return tr("star driver");
        case heater::Tool::pliers: return tr("pliers");
    }
    return {};
}

std::string name(gas::GasKind k) { return k == gas::GasKind::propane ? tr("propane") : tr("natural gas"); }

std::string name(heater::Fire f) {
    switch (f) {
        case heater::Fire::off: return tr("off");
        case heater::Fire::high: return tr("high fire");
        case heater::Fire::low: return tr("low fire");
        case heater::Fire::other: return tr("between");
    }
    return {};
}

std::string name(practice::Outcome o) {
    switch (o) {
        case practice::Outcome::none: return tr("the attempt was not ended");
        case practice::Outcome::left_in_service: return tr("left in service");
        case practice::Outcome::made_safe: return tr("left off and shut");
    }
    return {};
}

std::string name(FlameShape s) {
    switch (s) {
        case FlameShape::dark: return tr("no flame");
        case FlameShape::spark: return tr("spark, no flame yet");
        case FlameShape::below_deck: return tr("a glow below the deck");
        case FlameShape::stands_off: return tr("flames stand off");
        case FlameShape::lifts: return tr("flames lift, some go out");
        case FlameShape::yellow_tips: return tr("yellow tips, soot");
        case FlameShape::long_soft: return tr("flames long, soft tips");
        case FlameShape::long_pale: return tr("flames long, pale");
        case FlameShape::low_warm_deck: return tr("flames low, deck warm");
        case FlameShape::short_sitting: return tr("flames short, sitting");
    }
    return {};
}

namespace {

std::string label_of_set(Verb v, bool on) {
    switch (v) {
        case Verb::power: return on ? tr("Power switch on") : tr("Power switch off");
        case Verb::gas: return on ? tr("Gas tap open") : tr("Gas tap shut");
        case Verb::analyzer: return on ? tr("Analyzer on") : tr("Analyzer off");
        case Verb::port: return on ? tr("Test port open") : tr("Test port shut");
        case Verb::probe: return on ? tr("Probe in") : tr("Probe out");
        case Verb::manometer: return on ? tr("Manometer on") : tr("Manometer off");
        case Verb::seal: return on ? tr("Seal back on") : tr("Break the seal");
        case Verb::windows: return on ? tr("Open the windows") : tr("Shut the windows");
        case Verb::decide: return on ? tr("fit for service") : tr("out of service");
        case Verb::water:
        case Verb::forced_fire:
        case Verb::reset:
        case Verb::zero:
        case Verb::zero_outdoors:
        case Verb::fuel:
        case Verb::print:
        case Verb::manometer_to:
        case Verb::clock_meter:
        case Verb::sample_intake:
        case Verb::clear_drain:
        case Verb::set_fan:
        case Verb::cap:
        case Verb::tool:
        case Verb::turn:
        case Verb::look:
        case Verb::listen:
        case Verb::smell:
        case Verb::test_joints:
        case Verb::test_hose:
        case Verb::gas_switch:
        case Verb::orifice:
        case Verb::repair_tube:
        case Verb::repair_hose:
        case Verb::set_probe:
        case Verb::drain_trap:
        case Verb::change_filter:
        case Verb::record:
        case Verb::enter:
        case Verb::strike:
        case Verb::remark:
        case Verb::cause:
        case Verb::also_cause:
        case Verb::tell:
        case Verb::get_out:
        case Verb::call:
        case Verb::hand_over:
        case Verb::hint:
        case Verb::make_safe:
        case Verb::leave: break;
    }
    return {};
}

std::string label_of_line(practice::Line l) {
    switch (l) {
        case practice::Line::found: return tr("Record as found");
        case practice::Line::left: return tr("Record as left");
        case practice::Line::ambient: return tr("Record room CO");
        case practice::Line::standing: return tr("Record standing");
        case practice::Line::working: return tr("Record working");
        case practice::Line::input: return tr("Record input");
        case practice::Line::outlet: return tr("Record outlet");
        case practice::Line::venturi: return tr("Record venturi");
    }
    return {};
}

std::string label_of_cap(const practice::Cap& c) {
    if (c.screw == ScrewId::throttle) return c.on ? tr("Throttle cap on") : tr("Throttle cap off");
    return c.on ? tr("Offset cap on") : tr("Offset cap off");
}

}  // namespace

std::string label(const practice::Action& a, const practice::Papers& papers) {
    switch (a.verb) {
        case Verb::power:
        case Verb::gas:
        case Verb::analyzer:
        case Verb::port:
        case Verb::probe:
        case Verb::manometer:
        case Verb::seal:
        case Verb::windows:
        case Verb::decide: return label_of_set(a.verb, a.as<practice::Set>().on);
        case Verb::water: return tr("Hot water");
        case Verb::forced_fire:
            switch (a.as<heater::ForcedFire>()) {
                case heater::ForcedFire::off: return tr("Off");
                case heater::ForcedFire::low: return tr("Low");
                case heater::ForcedFire::high: return tr("High");
            }
            break;
        case Verb::reset: return tr("Reset the lock-out");
        case Verb::zero: return tr("Zero it here");
        case Verb::zero_outdoors: return tr("Zero outdoors");
        case Verb::fuel: return papers.fuel_name(a.as<gas::GasKind>());
        case Verb::print: return tr("Print the slip");
        case Verb::manometer_to: return say("Manometer: {0}", name(a.as<heater::TestPoint>()));
        case Verb::clock_meter: return say("Clock the meter {0}", duration(a.as<practice::Watching>().seconds));
        case Verb::sample_intake: return tr("Sample the intake");
        case Verb::clear_drain: return tr("Clear the drain");
        case Verb::set_fan: return tr("Set the fan speed");
        case Verb::cap: return label_of_cap(a.as<practice::Cap>());
        case Verb::tool: return say("Take: {0}", name(a.as<heater::Tool>()));
        case Verb::turn: return name(a.as<practice::ScrewTurn>().way);
        case Verb::look: return sentence_case(name(a.as<Sense>()));
        case Verb::listen: return tr("Listen");
        case Verb::smell: return tr("Smell");
        case Verb::test_joints: return tr("Leak-test joints");
        case Verb::test_hose: return tr("Test sample hose");
        case Verb::gas_switch: return say("Switch: {0}", name(a.as<gas::GasKind>()));
        case Verb::orifice: return say("Orifice: {0}", name(a.as<gas::GasKind>()));
        case Verb::repair_tube: return tr("Tube back on");
        case Verb::repair_hose: return tr("Repair the hose");
        case Verb::set_probe: return tr("Set the depth stop");
        case Verb::drain_trap: return tr("Drain the trap");
        case Verb::change_filter: return tr("Change the filter");
        case Verb::record: return label_of_line(a.as<practice::Line>());
        case Verb::enter: return tr("Type a value");
        case Verb::strike: return tr("Strike it out");
        case Verb::remark: return tr("A remark");
        case Verb::cause: return name(a.as<Cause>());
        case Verb::also_cause: return say("and: {0}", name(a.as<Cause>()));
        case Verb::tell: return tr("Tell the people here");
        case Verb::get_out: return tr("Get everybody out");
        case Verb::call: return tr("Call from outside");
        case Verb::hand_over: return tr("Hand over");
        case Verb::hint: return tr("Hint");
        case Verb::make_safe: return tr("Make safe");
        case Verb::leave: return tr("Leave");
    }
    return {};
}

std::string caution() {
    return tr(
        "Practice on a simulated heater. It does not replace the appliance's own instructions, local codes or licensed "
        "work. A real burner can make carbon monoxide that kills. Gas leaks, hot surfaces, scalding water and mains "
        "voltage wait there too.");
}

}  // namespace quarterturn::words
