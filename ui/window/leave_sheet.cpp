// Leaving: a deliberate act with a question.
#include <algorithm>

#include "ui/window/sheet_parts.hpp"

namespace quarterturn::window {

namespace {

//! There was a flame since it began, or power and gas for one.
bool lit(const Frame& f) {
    bool gas = false, power = false, both = f.r.lit();
    for (const Action& a : f.s.done()) {
        if (a.verb == Verb::gas) gas = a.as<practice::Set>().on;
        if (a.verb == Verb::power) power = a.as<practice::Set>().on;
        both |= gas && power;
    }
    return both || (f.r.gas_open && f.r.power);
}

//! Gas was smelt here: a switch that is worked makes a spark.
bool smelt_gas(const Seen& r) {
    if (r.smells_of_gas) return true;
    const auto* nose = r.found(faults::Sense::nose);
    return nose && (nose->shows(faults::Sign::faint_gas_smell) || nose->shows(faults::Sign::strong_gas_smell));
}

//! What is still open, in coached practice: an assessor does not say it.
std::vector<std::string> still_open(const Frame& f) {
    const Seen& r = f.r;
    std::vector<std::string> out;
    const practice::JobSheet& j = r.sheet;
    if (!j.decided) out.emplace_back(tr("no decision"));
    if (!j.cause_set) out.emplace_back(tr("no cause named"));
    if (r.probe_in) out.emplace_back(tr("probe in the flue"));
    if (r.port_open) out.emplace_back(tr("test port open"));
    if (!r.throttle_cap_on || !r.offset_cap_on) out.emplace_back(tr("a cap off its screw"));
    if (r.manometer_on()) out.emplace_back(tr("manometer on"));
    if (r.forced != ForcedFire::off) out.emplace_back(tr("a fire is forced"));
    if (r.draw_asked_l_min > 0) out.emplace_back(tr("hot tap running"));
    // What belongs before any flame can still be done as long as there was none.
    std::vector<std::string> unlooked;
    const bool stops = j.decided && !j.fit_for_service;
    if (!lit(f) && !stops)
        for (const auto& [by, what] : {std::pair(faults::Sense::nose, N_("smell")),
                                       {faults::Sense::supply, N_("gas supply")},
                                       {faults::Sense::plate, N_("rating plate")},
                                       {faults::Sense::sheet, N_("instruction sheet")},
                                       {faults::Sense::vent, N_("flue")},
                                       {faults::Sense::intake, N_("intake")}})
            if (!r.found(by)) unlooked.emplace_back(tr(what));
    if (!unlooked.empty()) out.push_back(say("not looked after: {0}", words::listed(unlooked)));
    // Before a stop the nose alone is asked for; in gas no switch is touched for it.
    if (stops && !r.found(faults::Sense::nose)) out.emplace_back(tr("nobody has smelt"));
    if (stops) {
        if (j.told_step < 0) out.emplace_back(tr("nobody told why"));
        if (r.gas_open) out.emplace_back(tr("gas tap open"));
        if (r.power && !smelt_gas(r)) out.emplace_back(tr("power on"));
        // A stop need not have measured everything, and whether this one must is for the trainee to know.
        if (!j.found_high.set || !j.found_low.set)
            out.emplace_back(tr("fires not read: right only where there was a danger"));
        if (!j.handed_over) out.emplace_back(tr("not handed over"));
        return out;
    }
    // What has no figure yet.
    std::vector<std::string> empty;
    const auto want = [&empty](bool there, const char* what) {
        if (!there) empty.emplace_back(tr(what));
    };
    const auto& done = f.s.done();
    const bool turned = std::any_of(done.begin(), done.end(), practice::is_setting);
    want(j.ambient_co.set, N_("room CO"));
    want(j.standing_pa.set, N_("gas pressure standing"));
    want(j.working_pa.set, N_("gas pressure working"));
    want(j.found_high.set, N_("high fire as found"));
    want(j.found_low.set, N_("low fire as found"));
    want(j.input_high_kw.set, N_("input at high fire"));
    want(!turned || j.left_low.set, N_("low fire as left"));
    want(!turned || j.left_high.set, N_("high fire as left"));
    if (!empty.empty()) out.push_back(say("not written down: {0}", words::listed(empty)));
    // A leak test belongs after the last thing that opened the gas path.
    std::int64_t opened = -1, tested = -1;
    for (const Action& a : done) {
        if (practice::opens_gas_path(a)) opened = a.step;
        if (a.verb == Verb::test_joints) tested = a.step;
    }
    if (tested < 0 || tested < opened) out.emplace_back(tr("joints not leak-tested"));
    // What is done now comes after it.
    if (!j.handed_over) out.emplace_back(tr("not handed over, which comes last"));
    if (j.handed_over && !out.empty()) out.emplace_back(tr("after that, handed over once more"));
    return out;
}

}  // namespace

void leave_sheet(Frame& f) {
    Canvas& d = f.d;
    const practice::JobSheet& j = f.r.sheet;
    const bool shut = !f.r.gas_open;
    const Rect r = open_sheet(f, 700, 300, shut ? tr("Leave it off and shut?") : tr("Leave it in service?"));
    const double x = r.x + 20;
    double y = r.y + 64;
    const std::string decided = !j.decided          ? tr("Your sheet holds no decision.")
                                : j.fit_for_service ? tr("Your sheet says: fit for service.")
                                                    : tr("Your sheet says: out of service.");
    y = d.wrapped(x, y, decided, r.w - 40, 16, Weight::semibold, d.c.ink);
    y = d.wrapped(x, y + 2, tr("After this nothing can be done at the heater any more."), r.w - 40, 15, Weight::regular,
                  d.c.ink);
    const auto open = still_open(f);
    if (f.papers().coached && !open.empty())
        d.wrapped(x, y + 6, say("Still open: {0}.", words::listed(open)), r.w - 40, f.l.h < 480 ? 13 : 15,
                  Weight::italic, d.c.ink);
    Seat* s = &f.s;
    Hands* h = &f.h;
    const Rect stay{r.right() - 204, r.bottom() - 50, 184, 34};
    button(d, stay, tr("Stay at the bench"), "", ButtonState::held);
    f.target(
        stay, "stay",
        [h] {
            h->sheet = Sheet::none;
            h->focus.clear();
        },
        true);
    // Broken off, it is carried on from the shelf.
    const double wide = (r.w - 40 - 184 - 24) / 2;
    const Rect off{x + wide + 12, r.bottom() - 50, wide, 34};
    button(d, off, wide > 190 ? tr("Break off, go on later") : tr("Break off"), "", ButtonState::rest,
           wide > 190 ? 15 : 13);
    f.target(
        off, "break off", [h] { h->to_shelf = true; }, true);
    const Rect go{x, r.bottom() - 50, wide, 34};
    button(d, go, shut ? tr("Leave, off and shut") : tr("Leave it running"), "", ButtonState::rest);
    f.target(
        go, "really leave", [s] { s->act(practice::act(Verb::leave)); }, true);
}

}  // namespace quarterturn::window
