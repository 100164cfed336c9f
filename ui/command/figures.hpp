// What the commands that print figures share.
#pragma once

#include <string>
#include <vector>

#include "sim/flame/flue_gas.hpp"
#include "ui/report/table.hpp"

namespace quarterturn::command {

const std::vector<std::string>& flue_columns();
std::vector<std::string> flue_cells(const flame::FlueGas& g, double flame_k, double pressure_pa, bool out);
//! Says on stderr, a line each, where figures lie outside what the model was checked against. command: its name.
void say_doubts(const char* command, const gas::Mixture& gas, double pressure_pa, double air_ratio, double heat_loss);
//! "high", "low" or a share of high fire; low_fire is what "low" stands for. NaN if it is none of them.
double fire_argument(const std::string& text, double low_fire);

}  // namespace quarterturn::command
