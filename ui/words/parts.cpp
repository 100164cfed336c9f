// The parts one stands before: their names, and a line on what they are.
#include "sim/practice/part.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::words {

using practice::Part;

std::string name(Part p) {
    switch (p) {
        case Part::gas_meter: return tr("Gas meter and supply");
        case Part::gas_tap: return tr("Gas tap");
        case Part::gas_joints: return tr("Gas joints");
        case Part::test_points: return tr("Pressure test points");
        case Part::gas_valve: return tr("Gas valve");
        case Part::reference_tube: return tr("Reference tube");
        case Part::orifice: return tr("Orifice");
        case Part::gas_switch: return tr("Gas-type switch");
        case Part::terminal: return tr("Vent terminal");
        case Part::intake: return tr("Air intake");
        case Part::fan: return tr("Fan and venturi mixer");
        case Part::sight_glass: return tr("Sight glass");
        case Part::exchanger: return tr("Heat exchanger");
        case Part::test_port: return tr("Test port and probe");
        case Part::hose: return tr("Sample hose");
        case Part::trap: return tr("Water trap and filter");
        case Part::analyzer: return tr("Analyzer");
        case Part::room: return tr("The room");
        case Part::hot_tap: return tr("Hot tap");
        case Part::drain: return tr("Condensate drain");
        case Part::controls: return tr("Power switch and controls");
        case Part::plate: return tr("Rating plate");
        case Part::instructions: return tr("Instruction sheet");
        case Part::job_sheet: return tr("Job sheet");
        case Part::tray: return tr("In the hand");
        case Part::top_bar: return tr("Make safe");
    }
    return {};
}

std::string meaning(Part p) {
    switch (p) {
        case Part::gas_meter: return tr("outside in its box; its mark says which gas");
        case Part::gas_tap: return tr("the handle lies along the pipe when it is open");
        case Part::gas_joints: return tr("from the tap to the mixer, wetted with leak spray");
        case Part::test_points: return tr("nipples at inlet, outlet and venturi; shut the tap before you open one");
        case Part::gas_valve: return tr("throttle, offset, and what the factory sealed");
        case Part::reference_tube: return tr("tells the governor the air's pressure");
        case Part::orifice: return tr("where the gas joins the air; its size is stamped on it");
        case Part::gas_switch: return tr("behind its cover on the control box");
        case Part::terminal: return tr("where burnt gas leaves, on the garden side");
        case Part::intake: return tr("where air comes in, below the terminal");
        case Part::fan: return tr("draws air and gas together");
        case Part::sight_glass: return tr("the flames on the burner deck");
        case Part::exchanger: return tr("behind its inspection cover");
        case Part::test_port: return tr("in the flue above the heater");
        case Part::hose: return tr("from the probe to the trap");
        case Part::trap: return tr("keep water and soot out of the analyzer");
        case Part::analyzer: return tr("reads O2 and CO; works out CO2 for the fuel it is set to");
        case Part::room: return tr("ear, nose, windows, and the people in the house");
        case Part::hot_tap: return tr("the fire follows what is drawn");
        case Part::drain: return tr("where the condensate leaves");
        case Part::controls: return tr("power, forced fire, what the panel says");
        case Part::plate: return tr("what it was built for");
        case Part::instructions: return tr("the bands for this gas");
        case Part::job_sheet:
        case Part::tray:
        case Part::top_bar: return {};
    }
    return {};
}

}  // namespace quarterturn::words
