// Leaving: a deliberate act with a question.
#include "ui/window/sheet_parts.hpp"

namespace quarterturn::window {

namespace {

//! What is still open, in coached practice: an assessor does not say it.
std::vector<std::string> still_open(const Seen& r) {
    std::vector<std::string> out;
    const practice::JobSheet& j = r.sheet;
    if (!j.decided) out.emplace_back(tr("no decision"));
    if (!j.cause_set) out.emplace_back(tr("no cause named"));
    if (!j.handed_over) out.emplace_back(tr("not handed over"));
    if (r.probe_in) out.emplace_back(tr("probe in the flue"));
    if (r.port_open) out.emplace_back(tr("test port open"));
    if (!r.throttle_cap_on || !r.offset_cap_on) out.emplace_back(tr("a cap off its screw"));
    if (r.manometer_on()) out.emplace_back(tr("manometer on"));
    if (r.forced != ForcedFire::off) out.emplace_back(tr("a fire is forced"));
    if (r.draw_asked_l_min > 0) out.emplace_back(tr("hot tap running"));
    return out;
}

}  // namespace

void leave_sheet(Frame& f) {
    Canvas& d = f.d;
    const practice::JobSheet& j = f.r.sheet;
    const bool shut = !f.r.gas_open;
    const Rect r = open_sheet(f, 680, 250, shut ? tr("Leave it off and shut?") : tr("Leave it in service?"));
    const double x = r.x + 20;
    double y = r.y + 64;
    const std::string decided = !j.decided          ? tr("Your sheet holds no decision.")
                                : j.fit_for_service ? tr("Your sheet says: fit for service.")
                                                    : tr("Your sheet says: out of service.");
    y = d.wrapped(x, y, decided, r.w - 40, 16, Weight::semibold, d.c.ink);
    y = d.wrapped(x, y + 2, tr("After this nothing can be done at the heater any more."), r.w - 40, 15, Weight::regular,
                  d.c.ink);
    const auto open = still_open(f.r);
    if (f.papers().coached && !open.empty())
        d.wrapped(x, y + 6, say("Still open: {0}.", words::listed(open)), r.w - 40, 15, Weight::italic, d.c.ink);
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
    const Rect go{x, r.bottom() - 50, 184, 34};
    button(d, go, shut ? tr("Leave, off and shut") : tr("Leave it running"), "", ButtonState::rest);
    f.target(
        go, "really leave", [s] { s->act(practice::act(Verb::leave)); }, true);
}

}  // namespace quarterturn::window
