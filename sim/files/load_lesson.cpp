// A lesson from its file, with everything it names.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>

#include "sim/files/load_parts.hpp"
#include "sim/heater/heater.hpp"

namespace quarterturn::files {

namespace {

using bench::End;
using bench::TimedFault;
using faults::FaultId;
using gas::GasKind;
using heater::Heater;

GasKind kind_by_word(const std::string& word) { return word == "propane" ? GasKind::propane : GasKind::natural; }

std::vector<std::string> cause_words() {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < faults::kCauseCount; ++i)
        out.emplace_back(faults::word_of(static_cast<faults::Cause>(i)));
    return out;
}

//! What the lesson names, before it is looked up.
struct Named {
    std::string appliance, gas, analyzer;
    std::string orifice, gas_switch;  //!< empty: what is right for the gas
};

//! Reads one lesson; everything wrong ends up in one list.
class LessonReader {
public:
    LessonReader(const Library& library, const Opened& file, const Draws& draws, Problems& problems)
        : library_(library),
          file_(file),
          problems_(problems),
          r_(FileKind::lesson, file.table, "", file.text.name, problems, draws) {}

    LoadedScenario read(const std::string& name) {
        read_head(r_);
        s_.id = stem(name);
        ls_.parts.push_back({FileKind::lesson, s_.id, file_.text});
        read_story();
        read_found();
        read_place();
        read_faults();
        read_answer();
        read_marks();
        r_.finish();
        look_up();
        return std::move(ls_);
    }

private:
    void read_story() {
        s_.title = r_.text("title");
        s_.story = r_.text("story");
        r_.let_draw(false);  // a lesson is coached or it is not, whatever the seed
        s_.gas_complained_of = r_.choice("complaint") == "smell of gas";
        s_.coached = r_.choice("mode") == "coached";
        read_course();
        r_.let_draw(true);
        named_.appliance = r_.text("appliance");
        named_.gas = r_.text("gas");
        named_.analyzer = r_.text("analyzer");
    }

    //! All of it may be left out: a lesson outside a course is one all the same.
    void read_course() {
        bench::Curriculum& c = s_.course;
        const std::vector<std::string> groups(bench::kGroupWords.begin(), bench::kGroupWords.end());
        const std::size_t before = problems_.size();
        const std::string group = r_.choice("group");
        c.group = static_cast<bench::Group>(std::find(groups.begin(), groups.end(), group) - groups.begin());
        c.aim = r_.text("aim");
        c.minutes = r_.number("minutes");
        c.teaches = r_.texts("teaches");
        c.needs_line = r_.line("needs");
        c.needs = r_.texts("needs");  // whether there are such lessons is asked by check: a record has only its own
        const bool known = std::find(groups.begin(), groups.end(), group) != groups.end() && problems_.size() == before;
        if (known && (c.group == bench::Group::assessment) != !s_.coached && r_.has("group"))
            r_.problem("group", fmt::format("is '{}', and mode is '{}': assessments stand in their own group", group,
                                            s_.coached ? "coached" : "assessment"));
    }

    void read_found() {
        TomlReader f = r_.table("as_found");
        s_.throttle_found_turns = f.number("throttle_turns");
        s_.offset_found_turns = f.number("offset_turns");
        named_.orifice = f.has("orifice") ? f.choice("orifice") : "";
        named_.gas_switch = f.has("switch") ? f.choice("switch") : "";
        s_.found_gas_open = f.choice("gas_tap") == "open";
        s_.found_power_on = f.choice("power") == "on";
        for (const std::string& work : f.texts("work_before")) {
            if (work == "gas line")
                s_.line_worked_on = true;
            else if (work == "gas valve")
                s_.valve_new = true;
            else
                f.problem("work_before", fmt::format("names '{}', allowed gas line, gas valve", work));
        }
        f.finish();
    }

    void read_place() {
        TomlReader a = r_.table("site");
        const std::string from = a.text("from");
        if (!from.empty()) {
            const auto base = load_site(library_, from, file_.text.name);
            if (base.value) {
                s_.site = *base.value;
                ls_.parts.push_back({FileKind::site, from, *library_.find(FileKind::site, from, file_.text.name)});
            } else {
                a.problem("from", fmt::format("is '{}': {}", from, base.problems.front().text()));
            }
        }
        if (!a.absent()) read_site(a, s_.site, from.empty());
        s_.start_clock_s = std::round(a.number("start_clock_h") * 3600);
        a.finish();
    }

    void read_faults() {
        fault_tables_ = r_.tables("fault");
        if (fault_tables_.size() > kMostFaults) {
            r_.problem("fault",
                       fmt::format("is given {} times, allowed at most {}", fault_tables_.size(), kMostFaults));
            fault_tables_.clear();
            return;
        }
        std::vector<std::string> known;
        for (const auto* f : faults::all_faults()) known.emplace_back(faults::word_of(f->id));
        for (TomlReader& t : fault_tables_) {
            TimedFault x;
            const std::string word = t.choice("name", {}, known);
            x.fault = faults::fault_by_word(word).value_or(FaultId::supply_low);
            x.severity = t.number("severity");
            x.start_s = t.number("start_s");
            x.stop_s = t.number("stop_s", 43200.0);
            if (!t.has("stop_s")) x.stop_s = 1e9;
            t.finish();
            if (!fault(x.fault).may_come_later && (t.has("start_s") || t.has("stop_s")))
                t.problem("name",
                          fmt::format("is '{}': that is so from the start, start_s and stop_s are not allowed", word));
            if (x.stop_s <= x.start_s) t.problem("stop_s", "must be after start_s");
            for (const TimedFault& before : s_.faults)
                if (before.fault == x.fault && x.start_s < before.stop_s && before.start_s < x.stop_s)
                    t.problem("name",
                              fmt::format("is '{}', which is there already at that time: give one severity", word));
            s_.faults.push_back(x);
        }
    }

    void read_answer() {
        if (!r_.has("answer")) return;
        TomlReader w = r_.table("answer");
        s_.said_end = w.choice("outcome") == "stop" ? End::stop : End::serve;
        const std::string word = w.has("cause") ? w.choice("cause", {}, cause_words()) : "";
        if (!word.empty()) s_.said_cause = faults::cause_by_word(word);
        w.finish();
    }

    void read_marks() {
        TomlReader m = r_.table("marks");
        m.let_draw(false);
        s_.pass_pct = m.number("pass_pct");
        s_.least_pct = m.number("least_pct");
        s_.co_tolerated_s = m.number("co_over_limit_tolerated_s");
        for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
            s_.weights.of[i] = m.number(bench::kCompetencyKeys[i]);
        for (const std::string& word : m.texts("not_asked")) {
            if (const auto rule = bench::rule_by_word(word))
                s_.not_asked.push_back(*rule);
            else
                m.problem("not_asked", fmt::format("names '{}', which is no rule; docs/marks.md has them all", word));
        }
        m.finish();
        if (!m.absent() && s_.weights.sum() <= 0) r_.problem("marks", "gives no points to anything");
    }

    //! A file the lesson names: found and good it joins the parts; else it is said at its key, or inside it.
    template <class T>
    void take(const Loaded<T>& part, const char* key, const std::string& name, FileKind kind) {
        if (name.empty()) return;  // reported as missing already
        const auto text = library_.find(kind, name, file_.text.name);
        if (part.value)
            ls_.parts.push_back({kind, name, *text});
        else if (!text)
            r_.problem(key, fmt::format("is '{}': {}", name, part.problems.front().message));
        else
            problems_.insert(problems_.end(), part.problems.begin(), part.problems.end());
    }

    void look_up() {
        const std::string& here = file_.text.name;
        const auto gas = load_gas(library_, named_.gas, here);
        const auto appliance = load_appliance(library_, named_.appliance, here);
        const auto analyzer = load_analyzer(library_, named_.analyzer, here);
        if (gas.value) {
            s_.gas = gas.value->mixture;
            s_.gas_name = gas.value->name;
        }
        if (appliance.value) s_.appliance = *appliance.value;
        if (analyzer.value) s_.analyzer = *analyzer.value;
        if (appliance.value && gas.value) {
            check_parts();
            check_breathing();
            if (appliance.value->has_hydrogen(s_.gas) && s_.sheet().judged_by != heater::Figure::o2)
                r_.problem("gas", fmt::format("is '{}', which has hydrogen: CO2 does not tell its mixture, and the "
                                              "appliance's [instructions] give no hydrogen_o2_high_pct",
                                              named_.gas));
        }
        take(appliance, "appliance", named_.appliance, FileKind::appliance);
        take(gas, "gas", named_.gas, FileKind::gas);
        take(analyzer, "analyzer", named_.analyzer, FileKind::analyzer);
        if (!appliance.value) return;
        take_gases_of_the_appliance();
        const auto reach = [&](const char* key, double found, const heater::ScrewSpec& screw) {
            if (found < screw.shut_turns || found > screw.stop_turns)
                r_.problem("as_found", fmt::format("{} is {:g}, beyond the screw's end stops: allowed {:g} to {:g}",
                                                   key, found, screw.shut_turns, screw.stop_turns));
        };
        reach("throttle_turns", s_.throttle_found_turns, s_.appliance.throttle);
        reach("offset_turns", s_.offset_found_turns, s_.appliance.offset);
    }

    //! The appliance's design gas may be another file than the gas that flows; a record carries both.
    void take_gases_of_the_appliance() {
        const auto at = library_.find(FileKind::appliance, named_.appliance, file_.text.name);
        Problems ignored;
        const toml::table table = parse_toml(*at, ignored);
        for (const std::string& other :
             {table["design_gas"].value_or(std::string()), table["conversion"]["gas"].value_or(std::string())})
            if (!other.empty() && other != named_.gas)
                if (const auto text = library_.find(FileKind::gas, other, at->name))
                    ls_.parts.push_back({FileKind::gas, other, *text});
    }

    void check_parts() {
        // What is fitted is right for the gas unless the lesson says otherwise.
        const GasKind right = s_.right_parts();
        const GasKind design = s_.appliance.design_kind();
        s_.found_orifice = named_.orifice.empty() ? right : kind_by_word(named_.orifice);
        s_.found_gas_switch = named_.gas_switch.empty() ? right : kind_by_word(named_.gas_switch);
        const bool has_kit = s_.appliance.conversion.has_value();
        if (!has_kit && (s_.found_orifice != design || s_.found_gas_switch != design))
            r_.problem("as_found", "has parts of a kit, but the appliance has no [conversion]");
        for (std::size_t i = 0; i < fault_tables_.size() && i < s_.faults.size(); ++i) {
            const FaultId f = s_.faults[i].fault;
            const std::string word(faults::word_of(f));
            if (f == FaultId::gas_switch_wrong && !has_kit)
                fault_tables_[i].problem(
                    "name", "is 'gas_switch_wrong', but the appliance has no [conversion] and so no switch");
            const bool of_parts = f == FaultId::orifice_other_gas || f == FaultId::gas_switch_wrong;
            if (of_parts && (s_.on_kit_gas() || s_.found_orifice != design))
                fault_tables_[i].problem("name",
                                         fmt::format("is '{}', allowed with the gas the appliance is built for and "
                                                     "its own parts only: say it in as_found instead",
                                                     word));
        }
    }

    bool breathes(const Scenario& s) const {
        const auto times = s.changes();
        return std::all_of(times.begin(), times.end(),
                           [&](double t) { return Heater::breathes(s.appliance, s.gas, s.site, s.condition_at(t)); });
    }

    //! The most of this fault that still lets air through [severity].
    double most_that_breathes(std::size_t which) const {
        double low = 0;
        double high = s_.faults[which].severity;
        Scenario tried = s_;
        for (int i = 0; i < 20; ++i) {
            tried.faults[which].severity = (low + high) / 2;
            (breathes(tried) ? low : high) = (low + high) / 2;
        }
        return std::floor(low * 100) / 100;
    }

    void check_breathing() {
        if (!problems_.empty() || breathes(s_)) return;
        for (std::size_t i = 0; i < s_.faults.size(); ++i) {
            const double most = most_that_breathes(i);
            if (most < s_.faults[i].severity - 0.005)
                fault_tables_[i].problem(
                    "severity",
                    fmt::format("is {:.2f}, and the fan could not move air at ignition: allowed 0 to {:.2f}",
                                s_.faults[i].severity, most));
        }
    }

    const Library& library_;
    const Opened& file_;
    Problems& problems_;
    TomlReader r_;
    LoadedScenario ls_;
    Scenario& s_ = ls_.scenario;
    Named named_;
    std::vector<TomlReader> fault_tables_;
};

}  // namespace

Loaded<LoadedScenario> load_scenario(const Library& library, const std::string& name, const Draws& draws) {
    Loaded<LoadedScenario> out;
    const auto file = open_file(library, FileKind::lesson, name, {}, out.problems);
    if (!file) return out;
    LoadedScenario ls = LessonReader(library, *file, draws, out.problems).read(name);
    if (out.problems.empty()) out.value = std::move(ls);
    return out;
}

}  // namespace quarterturn::files
