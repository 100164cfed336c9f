#include "sim/heater/appliance.hpp"

namespace quarterturn::heater {

void fit_orifice(Condition& c, const Appliance& a, GasKind kind) {
    const bool kit = a.conversion && kind != a.design_kind();
    c.orifice = kind;
    c.orifice_area = kit ? a.conversion->orifice_area : 1.0;
}

void set_gas_switch(Condition& c, const Appliance& a, GasKind kind) {
    const bool kit = a.conversion && kind != a.design_kind();
    c.gas_switch = kind;
    c.fan_factor = kit ? a.conversion->fan_factor : 1.0;
}

}  // namespace quarterturn::heater
