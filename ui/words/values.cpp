// Values in their units, and entries filled with them.
#include <fmt/args.h>

#include "sim/bench/action_text.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::words {

namespace {

struct AsText {
    std::string operator()(practice::At v) const { return clock_text(v.step); }
    std::string operator()(practice::Seconds v) const { return duration(v.s); }
    std::string operator()(practice::Co2 v) const { return fixed(v.pct, v.digits); }
    std::string operator()(practice::Co v) const { return fixed(v.ppm); }
    std::string operator()(practice::Lel v) const { return fixed(v.pct, 1); }
    std::string operator()(practice::Pressure v) const { return with_unit(Quantity::pressure_pa, v.pa); }
    std::string operator()(practice::Flow v) const { return with_unit(Quantity::flow_l_min, v.l_min); }
    std::string operator()(practice::Power v) const { return with_unit(Quantity::power_kw, v.kw); }
    std::string operator()(heater::TestPoint v) const { return name(v); }
    std::string operator()(practice::Turns v) const { return bench::turns_text(v.ticks); }
    std::string operator()(practice::Count v) const { return fmt::format("{}", v.n); }
    std::string operator()(practice::HighLow v) const { return v.high ? tr("high fire") : tr("low fire"); }
    std::string operator()(practice::SheetLine v) const {
        if (v.found) return v.high ? tr("high fire as found") : tr("low fire as found");
        return v.high ? tr("high fire as left") : tr("low fire as left");
    }
    std::string operator()(const practice::Name& v) const { return v.text; }
    std::string operator()(const practice::Action& v) const { return bench::to_text(v); }
    std::string operator()(faults::Sign v) const { return say(v); }
    std::string operator()(faults::Cause v) const { return name(v); }
    std::string operator()(faults::Sense v) const { return name(v); }
    std::string operator()(practice::ScrewId v) const { return name(v); }
    std::string operator()(heater::Turn v) const { return name(v); }
    std::string operator()(gas::GasKind v) const { return name(v); }
    std::string operator()(heater::Tool v) const { return name(v); }
    std::string operator()(heater::Figure v) const { return name(v); }
    template <class T>
    std::string operator()(const std::vector<T>& v) const {
        std::vector<std::string> items;
        items.reserve(v.size());
        for (const T& x : v) items.push_back((*this)(x));
        return listed(items);
    }
};

}  // namespace

std::string value(const practice::Value& v) { return std::visit(AsText{}, v); }

std::string listed(const std::vector<std::string>& items) {
    std::string out;
    for (const std::string& i : items) out = out.empty() ? i : say("{0}, {1}", out, i);
    return out;
}

std::string listed(const std::vector<faults::Cause>& causes) {
    std::vector<std::string> names;
    for (const faults::Cause c : causes) names.push_back(name(c));
    return listed(names);
}

std::string filled(const Entry& e, const std::vector<practice::Value>& values) {
    const char* pattern = tr(e.one);
    if (e.many) {
        const auto* count = e.by < values.size() ? std::get_if<practice::Count>(&values[e.by]) : nullptr;
        pattern = tr_count(e.one, e.many, count ? count->n : 2);
    }
    fmt::dynamic_format_arg_store<fmt::format_context> args;
    for (const auto& v : values) args.push_back(value(v));
    return fmt::vformat(pattern, args);
}

}  // namespace quarterturn::words
