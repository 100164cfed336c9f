// The cooling stage by a general solver, CVODE of SUNDIALS, on the same chemistry: what our own integrator has to beat.
#pragma once

#include "sim/flame/burnout.hpp"

namespace quarterturn::speed {

//! Dry CO [ppm] at 650 K. The same right-hand side and temperature as quarterturn::cool, dense matrix by differences.
double cvode_cool(const GasState& start, const BurnoutPath& p, double relative_tolerance);

}  // namespace quarterturn::speed
