#include <cstdlib>
#include <exception>
#include <filesystem>
#include <iostream>

#include "ui/command/command.hpp"
#include "ui/report/debrief.hpp"
#ifdef QUARTERTURN_HAS_WINDOW
#include "ui/window/window.hpp"
#endif

namespace quarterturn::command {

namespace {

std::string scenarios_folder() {
    namespace fs = std::filesystem;
    if (const char* set = std::getenv("QUARTERTURN_SCENARIOS")) return set;
    std::error_code ec;
    const fs::path self = fs::read_symlink("/proc/self/exe", ec);
    if (!ec)
        for (const char* beside : {"../scenarios", "../share/quarterturn/scenarios"}) {
            const fs::path p = self.parent_path() / beside;
            if (fs::is_directory(p / "lessons", ec)) return fs::weakly_canonical(p, ec).string();
        }
    return QUARTERTURN_SCENARIOS_DIR;
}

constexpr const char* kNoDisplay =
    "no display can be reached: the window cannot open. These commands need none: flue, gas, steady, run, expert, "
    "check, debrief";

}  // namespace

DiskLibrary library() { return DiskLibrary(scenarios_folder()); }

DiskLibrary library_for(const std::string& lesson) {
    DiskLibrary l = library();
    l.look_beside(lesson);
    return l;
}

void print(const Problems& problems) {
    for (const auto& p : problems) std::cerr << p.text() << "\n";
}

Replay replayed(const Record& record, const std::string& path, std::int64_t up_to) {
    Replay r = replay(record, path, up_to);
    print(r.problems);
    for (const auto& n : r.notes) std::cerr << n << "\n";
    return r;
}

int open(const Arguments& a) {
    const char* const usage_line = "usage: quarterturn open [SCENARIO|RECORD]";
    if (!a.empty() && (a[0] == "--help" || a[0] == "-h")) {
        std::cout << usage_line << "\n";
        return done;
    }
    if (a.size() > 1 || (a.size() == 1 && a[0].starts_with("-"))) {
        std::cerr << "quarterturn open:1:1: it takes at most one scenario or record; " << usage_line << "\n";
        return usage;
    }
#ifdef QUARTERTURN_HAS_WINDOW
    const std::string name = a.empty() ? "new-gas-valve" : a[0];
    const bool record = name.ends_with(".jsonl");
    window::Start start;
    if (record) {
        const Record r = read_record(name);
        Replay again = replayed(r, name);
        if (!again.attempt) return no;
        start.lesson = *lesson_of(r).value;
        std::string reason;
        if (!r.ended) start.writer = RecordWriter::append(name, r, reason);
        if (!reason.empty()) std::cerr << reason << "\n";
        start.attempt = std::move(again.attempt);
        start.record_path = name;
        start.again = [lesson = start.lesson](std::uint64_t) { return Loaded<LoadedScenario>{lesson, {}}; };
    } else {
        auto s = load_scenario(library_for(name), name);
        if (!s.value) {
            print(s.problems);
            std::cerr << s.problems.size() << (s.problems.size() == 1 ? " problem" : " problems")
                      << ". Nothing was started.\n";
            return no;
        }
        start.lesson = *std::move(s.value);
        start.again = [name](std::uint64_t seed) { return load_scenario(library_for(name), name, seed); };
    }
    if (!window::display_can_be_opened()) {
        std::cerr << kNoDisplay << "\n";
        return cannot;
    }
    return window::run(std::move(start));
#else
    std::cerr << "this build has no window. These commands need none: flue, gas, steady, run, expert, check, debrief, "
                 "resume, branch\n";
    return cannot;
#endif
}

}  // namespace quarterturn::command

int main(int argc, char** argv) {
    using namespace quarterturn::command;
    struct Command {
        const char* name;
        int (*call)(const Arguments&);
        const char* does;
    };
    static constexpr Command commands[] = {
        {"open", open, "opens the window on a lesson (also without any command)"},
        {"flue", flue, "burnt gas of one mixture"},
        {"gas", gas, "properties of a mixture"},
        {"steady", steady, "the settled state of an appliance"},
        {"run", run, "plays a list of actions"},
        {"resume", resume, "goes on with an attempt that was broken off"},
        {"branch", branch, "goes back to a moment of an attempt and on from there, as a new attempt"},
        {"expert", expert, "plays a lesson properly and says why"},
        {"check", check, "validates data files; a lesson is also played by the expert"},
        {"debrief", debrief, "replays a record and explains its marks"}};
    const std::string name = argc > 1 ? argv[1] : "open";
    const Arguments rest(argv + (argc > 1 ? 2 : 1), argv + argc);
    if (name == "--help" || name == "-h" || name == "help") {
        std::cout << "Quarterturn: a practice bench for setting the air-gas ratio of a modulating water heater.\n"
                  << quarterturn::report::kCaution << "\n\nusage: quarterturn [COMMAND] ...\n";
        for (const auto& c : commands)
            std::cout << "  " << c.name << std::string(10 - std::string(c.name).size(), ' ') << c.does << "\n";
        std::cout << "quarterturn COMMAND --help tells more.\n";
        return done;
    }
    try {
        for (const auto& c : commands)
            if (name == c.name) return c.call(rest);
    } catch (const std::exception& e) {
        std::cerr << "quarterturn " << name << ":1:1: " << e.what() << "\n";
        return no;
    }
    std::cerr << "quarterturn:1:1: '" << name
              << "' is not a command; known: open, flue, gas, steady, run, resume, branch, expert, check, debrief\n";
    return usage;
}
