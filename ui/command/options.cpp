#include "ui/command/options.hpp"

#include <charconv>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <iostream>

#include "ui/words/units.hpp"

namespace quarterturn::command {

namespace po = boost::program_options;

Options::Options(std::string name, std::string usage_line, std::vector<std::string> positional)
    : name_(std::move(name)), usage_(std::move(usage_line)), positional_(std::move(positional)), visible_("options") {
    visible_.add_options()("help,h", "this text");
    option("units", "si|us", "how quantities are shown; files and CSV stay SI. Default: by the locale");
    for (const auto& p : positional_) {
        const std::string bare = p.ends_with("...") ? p.substr(0, p.size() - 3) : p;
        hidden_.add_options()(bare.c_str(), po::value<std::vector<std::string>>());
    }
}

Options& Options::option(const std::string& name, const std::string& label, const std::string& help) {
    if (label.empty()) {
        visible_.add_options()(name.c_str(), help.c_str());
    } else {
        visible_.add_options()(name.c_str(), po::value<std::vector<std::string>>()->value_name(label), help.c_str());
    }
    return *this;
}

Options& Options::each(const std::string& name, const std::string& label, const std::string& help) {
    repeats_.insert(name);
    return option(name, label, help);
}

void Options::complain(const std::string& message) {
    command::complain("quarterturn " + name_ + ":1:1: " + message);
    failed_ = true;
    exit_code_ = usage;
}

bool Options::parse(const Arguments& a) {
    po::options_description all;
    all.add(visible_).add(hidden_);
    po::positional_options_description places;
    for (const auto& p : positional_) {
        if (p.ends_with("..."))
            places.add(p.substr(0, p.size() - 3).c_str(), -1);
        else
            places.add(p.c_str(), 1);
    }
    try {
        const int style = po::command_line_style::unix_style & ~po::command_line_style::allow_guessing;
        po::store(po::command_line_parser(a).options(all).positional(places).style(style).run(), values_);
    } catch (const po::error& e) {
        complain(std::string(e.what()) + "; usage: quarterturn " + usage_);
        return false;
    }
    if (has("help")) {
        std::cout << "usage: quarterturn " << usage_ << "\n\n" << visible_;
        return false;
    }
    if (has("units")) {
        const auto units = words::units_by_word(text("units"));
        if (!units) {
            complain("--units is " + files::quoted(text("units")) + ", allowed si, us");
            return false;
        }
        words::use(*units);
    }
    for (const auto& o : visible_.options())
        if (texts(o->long_name()).size() > 1 && !repeats_.contains(o->long_name())) {
            complain("--" + o->long_name() + " is given more than once");
            return false;
        }
    for (const auto& p : positional_) {
        if (p.starts_with("[")) continue;  // may be left out
        const std::string bare = p.ends_with("...") ? p.substr(0, p.size() - 3) : p;
        if (!has(bare)) {
            complain("the " + bare + " is missing; usage: quarterturn " + usage_);
            return false;
        }
    }
    return true;
}

std::string Options::text(const std::string& name) const {
    const auto v = texts(name);
    return v.empty() ? std::string() : v.back();
}

std::vector<std::string> Options::texts(const std::string& name) const {
    if (!has(name)) return {};
    if (values_[name].value().type() != typeid(std::vector<std::string>)) return {};  // a flag
    return values_[name].as<std::vector<std::string>>();
}

double Options::number(const std::string& name, double low, double high, double fallback) {
    if (!has(name)) return fallback;
    const auto v = to_number(text(name));
    if (v && *v >= low && *v <= high) return *v;
    complain(fmt::format("--{} is '{}', allowed {:g} to {:g}", name, text(name), low, high));
    return fallback;
}

std::optional<double> to_number(const std::string& t) {
    double v = 0;
    const char* first = t.data();
    if (t.size() > 1 && t[0] == '+' && t[1] != '-') ++first;  // "+0.25" is what people write for a turn that opens
    const auto r = std::from_chars(first, t.data() + t.size(), v);
    if (r.ec != std::errc{} || r.ptr != t.data() + t.size() || !std::isfinite(v)) return std::nullopt;
    return v;
}

std::optional<std::uint64_t> to_seed(const std::string& t) {
    std::uint64_t v = 0;
    const auto r = std::from_chars(t.data(), t.data() + t.size(), v);
    if (r.ec != std::errc{} || r.ptr != t.data() + t.size()) return std::nullopt;
    return v;
}

bool key_option(const Options& o, std::optional<school::KeyPair>& keys) {
    if (!o.has("key")) return true;
    std::string reason;
    keys = school::read_key_file(o.text("key"), reason);
    if (!keys) complain(o.text("key") + ":1:1: " + reason);
    return keys.has_value();
}

std::optional<school::KeyPair> instructor_keys(const std::string& path, bool& made) {
    std::string reason;
    std::error_code ec;
    made = !std::filesystem::exists(std::filesystem::symlink_status(path, ec));
    if (made) return school::new_key_pair();
    auto keys = school::read_key_file(path, reason);
    if (!keys) complain(path + ":1:1: " + reason);
    return keys;
}

}  // namespace quarterturn::command
