// The sheet for everything that is not a screw: looking, listening, testing, and the work of the hands. What was found
// stands below, newest first.
#include <algorithm>
#include <array>
#include <cmath>

#include "ui/window/sheet_parts.hpp"

namespace quarterturn::window {

namespace {

struct Job {
    std::string label;
    Action action;
};

std::vector<Job> looks() {
    constexpr std::array<std::pair<const char*, Subject>, 16> all{{{"Plate", Subject::plate},
                                                                   {"Instruction sheet", Subject::sheet},
                                                                   {"Gas supply", Subject::supply},
                                                                   {"Vent", Subject::vent},
                                                                   {"Intake", Subject::intake},
                                                                   {"Condensate drain", Subject::drain},
                                                                   {"Flame", Subject::flame},
                                                                   {"Exchanger", Subject::exchanger},
                                                                   {"Reference tube", Subject::tube},
                                                                   {"Screws and seal", Subject::screws},
                                                                   {"Gas-type switch", Subject::gas_switch},
                                                                   {"Orifice", Subject::orifice},
                                                                   {"Probe", Subject::probe},
                                                                   {"Sample hose", Subject::hose},
                                                                   {"Water trap", Subject::trap},
                                                                   {"Filter", Subject::filter}}};
    std::vector<Job> out;
    out.reserve(all.size());
    for (const auto& [label, subject] : all) out.push_back({label, look_action(subject)});
    return out;
}

std::vector<Job> tests(const Readings& r) {
    return {{"Smell", make_action(Verb::smell)},
            {"Listen", make_action(Verb::listen)},
            {"Leak-test joints", make_action(Verb::test_joints)},
            {"Test sample hose", make_action(Verb::test_hose)},
            {r.manometer_on ? "Manometer off" : "Manometer on", make_action(Verb::manometer, !r.manometer_on)},
            {"Note standing pressure", make_action(Verb::stamp_standing)},
            {"Note working pressure", make_action(Verb::stamp_working)},
            {"Note room CO", make_action(Verb::stamp_ambient)},
            {"Print the slip", make_action(Verb::print)},
            {"Zero outdoors", make_action(Verb::zero_outdoors)}};
}

std::vector<Job> hands(const Frame& f) {
    const Readings& r = f.r;
    std::vector<Job> out{{r.airing ? "Shut the windows" : "Air the room", make_action(Verb::airing, !r.airing)},
                         {"Mend the hose", make_action(Verb::mend_hose)},
                         {"Drain the trap", make_action(Verb::drain_trap)},
                         {"Change the filter", make_action(Verb::change_filter)},
                         {"Set the depth stop", make_action(Verb::set_probe)},
                         {"Tube back on", make_action(Verb::fix_tube)}};
    const Appliance& a = f.s.scenario().appliance;
    if (a.conversion) {
        out.push_back({"Switch: " + a.design_gas_name, make_action(Verb::gas_switch, false)});
        out.push_back({"Switch: " + a.conversion->gas_name, make_action(Verb::gas_switch, true)});
        out.push_back({"Orifice: " + a.design_gas_name, make_action(Verb::orifice, false)});
        out.push_back({"Orifice: " + a.conversion->gas_name, make_action(Verb::orifice, true)});
    }
    return out;
}

}  // namespace

void check_sheet(Frame& f) {
    Canvas& d = f.d;
    const Rect r = open_sheet(f, 820, 600, "Check and mend");
    const double x = r.x + 20;
    const double w = r.w - 40;
    constexpr std::array<const char*, 3> names{"Look at", "Ear, nose, tests", "Hands"};
    // Three tabs on one line with the title, if there is room, else below it.
    double y = r.y + 46;
    const double tab_w = std::min(190.0, w / 3);
    for (std::size_t i = 0; i < names.size(); ++i) {
        const Rect cell{x + tab_w * static_cast<double>(i), y, tab_w, 28};
        const bool on = f.h.check_tab == static_cast<int>(i);
        d.rect(cell, on ? d.c.inverse : d.c.sheet);
        d.stroke(box(cell), d.c.ink, kSeen, true);
        d.text(cell.centre().x, cell.y + 19, names[i], 14, Weight::semibold, on ? d.c.on_inverse : d.c.ink,
               Align::middle);
        Hands* h = &f.h;
        f.target(
            cell, "tab " + std::string(names[i]), [h, i] { h->check_tab = static_cast<int>(i); }, true);
    }
    y += 38;
    const std::vector<Job> jobs = f.h.check_tab == 0 ? looks() : f.h.check_tab == 1 ? tests(f.r) : hands(f);
    const int columns = std::max(2, static_cast<int>(w / 150));
    const double gap = 6;
    const double bw = (w - gap * (columns - 1)) / columns;
    const double bh = r.h < 430 ? 25 : 30;
    Session* s = &f.s;
    for (std::size_t i = 0; i < jobs.size(); ++i) {
        const int column = static_cast<int>(i) % columns;
        const int line = static_cast<int>(i) / columns;
        const Rect cell{x + column * (bw + gap), y + line * (bh + gap), bw, bh};
        const bool can = s->attempt().bench().refusal(jobs[i].action).empty();
        button(d, cell, d.fitted(jobs[i].label, bw - 12, 14, Weight::semibold), "",
               can ? ButtonState::rest : ButtonState::not_now, 14);
        f.target(
            cell, "do " + to_text(jobs[i].action), [s, a = jobs[i].action] { s->act(a); }, true);
    }
    y += std::ceil(static_cast<double>(jobs.size()) / columns) * (bh + gap) + 4;
    const double foot = r.bottom() - 50;
    // What the hands are at, or why something could not be done.
    if (!f.s.message().empty()) {
        warning_sign(d, x + 8, y + 10, 14, d.c.ink);
        y = d.wrapped(x + 24, y + 15, f.s.message(), w - 24, 15, Weight::semibold, d.c.ink);
    } else if (f.r.busy) {
        y = d.wrapped(
            x, y + 15,
            f.r.busy_with + ": " + std::to_string(std::lround(f.r.busy_left_s)) + " s more. The clock runs on.", w, 15,
            Weight::italic, d.c.ink2);
    } else {
        y += 8;
    }
    d.line(x, y, x + w, y, d.c.rule, kThin);
    y += 20;
    if (f.r.findings.empty() && y < foot)
        d.text(x, y, "Nothing has been looked at yet. What you find will stand here.", 15, Weight::italic, d.c.ink2);
    for (auto it = f.r.findings.rbegin(); it != f.r.findings.rend(); ++it) {
        if (y > foot - 8) break;
        const std::string words = clock_text(it->step) + "  " + it->text;
        // Only what still fits whole is shown; the rest is in the debrief.
        const double rows = std::ceil(d.width(words, 15, Weight::semibold) / (w - 24));
        if (y + (rows - 1) * 21 > foot - 8) break;
        if (it->abnormal) warning_sign(d, x + 8, y - 5, 13, d.c.ink);
        y = d.wrapped(x + 24, y, words, w - 24, 15, it->abnormal ? Weight::semibold : Weight::regular, d.c.ink) + 2;
    }
    close_button(f, {r.right() - 204, r.bottom() - 42, 184, 30}, "Back to the bench");
}

}  // namespace quarterturn::window
