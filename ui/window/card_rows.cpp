#include "ui/window/card_rows.hpp"

#include <algorithm>

#include "sim/bench/action_text.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

using practice::Line;
using practice::Verb;
using words::say;
using words::tr;

namespace {

//! Of parts only what the appliance has; a test point only when the manometer is there; the sealed screw under its seal
//! cannot be got at.
bool worth_offering(const Action& a, const Papers& papers, const Seen& seen, int step) {
    switch (a.verb) {
        case Verb::gas_switch:
        case Verb::orifice: return papers.has_gas_switch();
        case Verb::manometer_to: return seen.manometer_on();
        case Verb::reset: return seen.stage == heater::Stage::locked_out;
        case Verb::turn: return !seen.seal_on && a.as<practice::ScrewTurn>().ticks == step;
        default: return true;
    }
}

std::string state_word(Verb v, bool on) {
    switch (v) {
        case Verb::gas:
        case Verb::port:
        case Verb::windows: return on ? tr("open") : tr("shut");
        case Verb::probe: return on ? tr("in") : tr("out");
        default: return on ? tr("on") : tr("off");
    }
}

bool stands(const Action& a, const Seen& s) {
    switch (a.verb) {
        case Verb::gas: return s.gas_open == a.as<practice::Set>().on;
        case Verb::power: return s.power == a.as<practice::Set>().on;
        case Verb::port: return s.port_open == a.as<practice::Set>().on;
        case Verb::probe: return s.probe_in == a.as<practice::Set>().on;
        case Verb::windows: return s.windows_open == a.as<practice::Set>().on;
        case Verb::analyzer: return s.analyzer.on == a.as<practice::Set>().on;
        case Verb::manometer: return s.manometer_on() == a.as<practice::Set>().on;
        case Verb::manometer_to: return s.manometer == a.as<heater::TestPoint>();
        case Verb::seal: return s.seal_on == a.as<practice::Set>().on;
        case Verb::cap: return s.cap_on(a.as<practice::Cap>().screw) == a.as<practice::Cap>().on;
        case Verb::fuel: return s.analyzer.on && s.fuel == a.as<gas::GasKind>();
        case Verb::forced_fire: return s.power && s.forced == a.as<heater::ForcedFire>();
        default: return false;
    }
}

bool is_state(Verb v) {
    return v != Verb::record && v != Verb::look && v != Verb::clock_meter && v != Verb::gas_switch &&
           v != Verb::orifice && v != Verb::turn;
}

std::string line_word(Line l) {
    switch (l) {
        case Line::found: return tr("as found");
        case Line::left: return tr("as left");
        case Line::ambient: return tr("room CO");
        case Line::standing: return tr("standing");
        case Line::working: return tr("working");
        case Line::input: return tr("input");
        case Line::outlet: return tr("outlet");
        case Line::venturi: return tr("venturi");
    }
    return {};
}

std::string cell_words(const Action& a, const Papers& papers) {
    if (a.verb == Verb::record) return line_word(a.as<Line>());
    if (a.verb == Verb::manometer_to) return words::name(a.as<heater::TestPoint>());
    if (a.verb == Verb::gas_switch || a.verb == Verb::orifice) return words::name(a.as<gas::GasKind>());
    if (a.verb == Verb::clock_meter) return words::duration(a.as<practice::Watching>().seconds);
    if (a.verb == Verb::cap) return a.as<practice::Cap>().on ? tr("on") : tr("off");
    if (a.verb == Verb::forced_fire) return words::label(a, papers);
    if (a.verb == Verb::turn) return words::name(a.as<practice::ScrewTurn>().way);
    if (std::holds_alternative<practice::Set>(a.with)) return state_word(a.verb, a.as<practice::Set>().on);
    return words::label(a, papers);
}

std::string row_name(const Action& a, bool only_look) {
    switch (a.verb) {
        case Verb::gas: return tr("Gas tap");
        case Verb::power: return tr("Power switch");
        case Verb::port: return tr("Test port");
        case Verb::probe: return tr("Probe");
        case Verb::windows: return tr("Windows and doors");
        case Verb::analyzer: return tr("Analyzer");
        case Verb::manometer: return tr("Manometer");
        case Verb::manometer_to: return tr("Its hose on");
        case Verb::seal: return tr("Factory seal");
        case Verb::cap:
            return a.as<practice::Cap>().screw == practice::ScrewId::throttle ? tr("Cap of the throttle")
                                                                              : tr("Cap of the offset");
        case Verb::fuel: return tr("Fuel set");
        case Verb::forced_fire: return tr("Forced fire");
        case Verb::record: return tr("Write down");
        case Verb::clock_meter: return tr("Clock the meter");
        case Verb::gas_switch: return tr("Set the switch to");
        case Verb::orifice: return tr("Fit the one for");
        case Verb::turn: return say("Turn it {0}", words::value(practice::Turns{a.as<practice::ScrewTurn>().ticks}));
        case Verb::look:
            return only_look ? std::string(tr("Look")) : say("Look: {0}", words::name(a.as<practice::Sense>()));
        default: return {};
    }
}

//! Cells of one row: the same verb, and of caps the same screw; a look stands by itself.
bool same_row(const Action& a, const Action& b) {
    if (a.verb != b.verb || a.verb == Verb::look) return false;
    return a.verb != Verb::cap || a.as<practice::Cap>().screw == b.as<practice::Cap>().screw;
}

std::string noted(const practice::Noted& n, words::Quantity q, Line line) {
    if (!n.set) return {};
    return say("{0} {1}", line_word(line), words::with_unit(q, n.value));
}

//! What stands in the job sheet of what is written down here.
std::string written(Part part, const practice::JobSheet& j) {
    using words::Quantity;
    std::vector<std::string> all;
    const auto add = [&all](std::string t) {
        if (!t.empty()) all.push_back(std::move(t));
    };
    if (part == Part::test_points) {
        add(noted(j.standing_pa, Quantity::pressure_pa, Line::standing));
        add(noted(j.working_pa, Quantity::pressure_pa, Line::working));
        add(noted(j.outlet_high_pa, Quantity::pressure_pa, Line::outlet));
        add(noted(j.venturi_high_pa, Quantity::pressure_pa, Line::venturi));
    } else if (part == Part::gas_meter) {
        add(noted(j.input_high_kw, Quantity::power_kw, Line::input));
        add(noted(j.input_low_kw, Quantity::power_kw, Line::input));
    } else if (part == Part::analyzer) {
        if (j.ambient_co.set) add(say("room CO {0} ppm", words::fixed(j.ambient_co.value)));
        const int readings = j.found_high.set + j.found_low.set + j.left_high.set + j.left_low.set;
        if (readings) add(say("{0} of 4 readings", readings));
    }
    return words::listed(all);
}

//! The newest finding an action gave, with its number.
void take_finding(CardRow& row, const Action& a, const Papers& papers, const Seen& seen) {
    const auto by = practice::sense_of(a);
    if (!by) return;
    for (std::size_t i = seen.findings.size(); i-- > 0;) {
        const practice::Finding& f = seen.findings[i];
        if (practice::sense_of(f.by) != by) continue;
        row.found = words::say(f, papers);
        row.tag = static_cast<int>(i) + 1;
        return;
    }
}

std::string done_words(const Action& a, const Seen& s) {
    const auto at = [](std::int64_t step) { return step >= 0 ? words::clock_text(step) : std::string(); };
    switch (a.verb) {
        case Verb::tell: return at(s.sheet.told_step);
        case Verb::get_out: return at(s.sheet.out_step);
        case Verb::call: return at(s.sheet.called_step);
        case Verb::zero:
        case Verb::zero_outdoors:
            return s.sheet.zero_step >= 0 ? say("zeroed at {0}", at(s.sheet.zero_step)) : std::string();
        default: return {};
    }
}

}  // namespace

namespace {

//! The tap is turned by half a litre, or to a draw one knows.
CardRow tap_row(const Seen& seen) {
    using words::Quantity;
    const double now = seen.draw_asked_l_min;
    CardRow row;
    row.name = say("Draw {0}", words::with_unit(Quantity::flow_l_min, now));
    row.is_state = true;
    const auto to = [&](const std::string& words, double l_min, bool on = false) {
        row.cells.push_back({words, on, practice::water(l_min)});
    };
    to(tr("shut"), 0, now <= 0);
    to("\u2212", std::max(0.0, now - 0.5));
    to("+", std::min(40.0, now + 0.5));
    for (const double l_min : {5.0, 10.0, 15.0, 20.0})
        to(words::number_of(Quantity::flow_l_min, l_min), l_min, now == l_min);
    return row;
}

}  // namespace

std::vector<CardRow> card_rows(Part part, const Papers& papers, const Seen& seen, int step) {
    std::vector<CardRow> rows;
    std::vector<Action> all;
    for (const Action& a : bench::offered_at(part))
        if (worth_offering(a, papers, seen, step)) all.push_back(a);
    // Eyes, ears and nose first, then how things stand, then what is written down.
    const auto rank = [](const Action& a) {
        if (a.verb == Verb::record) return 3;
        if (a.verb == Verb::print) return 2;
        if (practice::sense_of(a)) return 0;
        return is_state(a.verb) && a.with.index() != 0 ? 1 : 2;
    };
    std::stable_sort(all.begin(), all.end(), [&](const Action& a, const Action& b) { return rank(a) < rank(b); });
    const auto looks = std::count_if(all.begin(), all.end(), [](const Action& a) { return a.verb == Verb::look; });
    for (const Action& a : all) {
        if (a.verb == Verb::water) {
            rows.push_back(tap_row(seen));
            continue;
        }
        CardCell cell{cell_words(a, papers), stands(a, seen), a};
        if (!rows.empty() && same_row(rows.back().cells.back().action, a)) {
            rows.back().cells.push_back(std::move(cell));
            continue;
        }
        CardRow row;
        row.name = row_name(a, looks == 1);
        row.is_state = is_state(a.verb) && a.with.index() != 0;
        row.seconds = bench::seconds_taken(a);
        row.cells.push_back(std::move(cell));
        take_finding(row, a, papers, seen);
        if (a.verb == Verb::record) row.found = written(part, seen.sheet);
        if (row.found.empty()) row.found = done_words(a, seen);
        rows.push_back(std::move(row));
    }
    // off, then on; shut, then open: the same way round everywhere.
    for (CardRow& r : rows)
        if (r.cells.size() == 2 &&
            (std::holds_alternative<practice::Set>(r.cells[0].action.with) || r.cells[0].action.verb == Verb::cap))
            std::swap(r.cells[0], r.cells[1]);
    return rows;
}

std::vector<int> tags_of(Part part, const Seen& seen) {
    std::vector<int> out;
    for (std::size_t i = 0; i < seen.findings.size(); ++i)
        if (practice::part_of(seen.findings[i].by) == part) out.push_back(static_cast<int>(i) + 1);
    return out;
}

}  // namespace quarterturn::window
