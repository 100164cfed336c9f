#include "ui/window/settings.hpp"

#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>

#include "sim/files/library.hpp"
#include "sim/files/output.hpp"
#include "sim/files/toml_reader.hpp"

namespace quarterturn::window {

namespace fs = std::filesystem;

std::string settings_path() {
    const char* config = std::getenv("XDG_CONFIG_HOME");
    const char* home = std::getenv("HOME");
    if (config && *config) return (fs::path(config) / "quarterturn/settings.toml").string();
    if (home && *home) return (fs::path(home) / ".config/quarterturn/settings.toml").string();
    return {};
}

Settings read_settings(const std::string& path, std::vector<std::string>& problems) {
    Settings s;
    s.units = words::units_of_locale();
    std::error_code ec;
    if (path.empty() || !fs::exists(path, ec)) return s;
    std::string why;
    const auto text = files::read_file(path, &why);
    if (!text) {
        problems.push_back(fmt::format("{}: {}", path, why));
        return s;
    }
    files::Problems found;
    const toml::table table = files::parse_toml({path, *text}, found);
    if (found.empty()) {
        const Settings d = s;
        files::TomlReader r(files::FileKind::settings, table, "", path, found);
        const std::string units = r.choice("units", d.units == words::Units::us ? "us" : "si");
        s.units = units == "us" ? words::Units::us : words::Units::si;
        s.evening = r.choice("paper") == "evening";
        s.text_scale = r.number("text");
        s.still = r.flag("still");
        s.slow_down = r.flag("slow_down");
        s.volume = static_cast<int>(r.number("volume"));
        r.finish();
        // A number out of its range comes back as the least it may be: the default is what is meant.
        for (const auto& p : found)
            if (p.message.starts_with("text ")) s.text_scale = 1;
    }
    for (const auto& p : found) problems.push_back(p.text());
    return s;
}

std::string write_settings(const std::string& path, const Settings& s) {
    if (path.empty()) return "there is no home folder to keep settings in";
    std::error_code ec;
    fs::create_directories(fs::path(path).parent_path(), ec);
    if (ec) return fmt::format("{}: {}", fs::path(path).parent_path().string(), ec.message());
    return files::write_output(
        path, fmt::format("units = \"{}\"\npaper = \"{}\"\ntext = {:.2f}\nstill = {}\nslow_down = {}\n"
                          "volume = {}\n",
                          s.units == words::Units::us ? "us" : "si", s.evening ? "evening" : "day", s.text_scale,
                          s.still, s.slow_down, s.volume));
}

}  // namespace quarterturn::window
