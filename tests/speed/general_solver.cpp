#include "tests/speed/general_solver.hpp"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <cmath>
#include <stdexcept>

#include "sim/flame/kinetics.hpp"

namespace quarterturn::speed {

namespace {

constexpr double kWater_k = 340;

struct Cooling {
    double t0_k, cooling_s, pressure_pa;
};

int slope(realtype t, N_Vector y, N_Vector dy, void* data) {
    const auto& c = *static_cast<const Cooling*>(data);
    const double temperature = kWater_k + (c.t0_k - kWater_k) * std::exp(-t / c.cooling_s);
    const double* v = NV_DATA_S(y);
    double n = 0;
    for (std::size_t s = 0; s < kKineticCount; ++s) n += v[s];
    const double rho = c.pressure_pa / (kGasConstant * temperature * n);
    KineticVector x{};
    for (std::size_t s = 0; s < kKineticCount; ++s) x[s] = v[s] * rho;
    const KineticVector w = production(rate_constants(temperature), x);
    for (std::size_t s = 0; s < kKineticCount; ++s) NV_DATA_S(dy)[s] = w[s] / rho;
    return 0;
}

}  // namespace

double cvode_cool(const GasState& start, const BurnoutPath& p, double relative_tolerance) {
    SUNContext context = nullptr;
    SUNContext_Create(nullptr, &context);
    Cooling c{start.temperature_k, p.cooling_s, p.pressure_pa};
    N_Vector y = N_VNew_Serial(kKineticCount, context);
    for (std::size_t s = 0; s < kKineticCount; ++s) NV_DATA_S(y)[s] = start.moles[s];
    void* solver = CVodeCreate(CV_BDF, context);
    SUNMatrix matrix = SUNDenseMatrix(kKineticCount, kKineticCount, context);
    SUNLinearSolver linear = SUNLinSol_Dense(y, matrix, context);
    CVodeInit(solver, slope, 0, y);
    CVodeSStolerances(solver, relative_tolerance, 2e-6 * relative_tolerance);
    CVodeSetUserData(solver, &c);
    CVodeSetLinearSolver(solver, linear, matrix);
    CVodeSetMaxNumSteps(solver, 20000);
    const double end = p.cooling_s * std::log((c.t0_k - kWater_k) / (650 - kWater_k));
    CVodeSetStopTime(solver, end);
    realtype t = 0;
    const int flag = CVode(solver, end, y, &t, CV_NORMAL);
    GasState out = start;
    for (std::size_t s = 0; s < kKineticCount; ++s) out.moles[s] = NV_DATA_S(y)[s];
    CVodeFree(&solver);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    N_VDestroy(y);
    SUNContext_Free(&context);
    if (flag < 0) throw std::runtime_error("CVODE did not get there");
    return out.dry_ppm(CO);
}

}  // namespace quarterturn::speed
