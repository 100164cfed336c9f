#include <csignal>
#include <cstdlib>
#include <exception>
#include <fcntl.h>
#include <filesystem>
#include <iostream>
#include <unistd.h>

#include "sim/files/version.hpp"
#include "ui/command/options.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::command {

namespace {

namespace fs = std::filesystem;

std::string scenarios_folder() {
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

constexpr Command kCommands[]{
    {"open", open, "opens the window on a lesson (also without any command)", true},
    {"lessons", lessons, "lists the lessons"},
    {"expert", expert, "plays a lesson properly and says why"},
    {"run", run, "plays a list of actions"},
    {"resume", resume, "goes on with an attempt that was broken off"},
    {"branch", branch, "goes back to a moment of an attempt and on from there, as a new attempt"},
    {"debrief", debrief, "replays a record and explains its marks"},
    {"marks", marks, "replays the records of a class and tabulates their marks"},
    {"pack", pack, "makes a sealed assessment with comparable variants"},
    {"compare", compare, "two attempts side by side"},
    {"assess", assess, "keeps an assessor's remark and override beside a record"},
    {"forget", forget, "takes a pupil's name out of the roster"},
    {"check", check, "validates data files; a lesson is also played by the expert"},
    {"steady", steady, "the settled state of an appliance"},
    {"flue", flue, "burnt gas of one mixture"},
    {"gas", gas, "properties of a mixture"},
    {"commands", commands_page, "every command with its options, as a page"},
};

//! Standard streams that are closed would lend their numbers to the next file that is opened.
void keep_standard_streams() {
    for (int fd = 0; fd <= 2; ++fd)
        if (fcntl(fd, F_GETFD) == -1 && ::open("/dev/null", fd == 0 ? O_RDONLY : O_WRONLY) != fd) std::_Exit(cannot);
}

void help() {
    std::cout << "Quarterturn: a practice bench for setting the air-gas ratio of a modulating water heater.\n"
              << words::caution() << "\n\nusage: quarterturn [COMMAND] ...\n";
    for (const Command& c : kCommands)
        std::cout << "  " << c.name << std::string(10 - c.name.size(), ' ') << c.does << "\n";
    std::cout << "Everywhere: --help, --units si|us. Alone: --version.\n";
}

int dispatch(const std::string& name, const Arguments& rest) {
    if (name == "--help" || name == "-h" || name == "help") {
        help();
        return done;
    }
    if (name == "--version") {
        if (!rest.empty()) {
            complain("quarterturn --version:1:1: takes nothing after it");
            return usage;
        }
        std::cout << "quarterturn " << files::kProgramVersion << "\n";
        return done;
    }
    try {
        for (const Command& c : kCommands)
            if (name == c.name) return c.call(rest);
    } catch (const std::exception& e) {
        complain("quarterturn " + name + ":1:1: " + e.what());
        return no;
    }
    std::string known;
    for (const Command& c : kCommands) known += (known.empty() ? "" : ", ") + std::string(c.name);
    complain("quarterturn:1:1: " + files::quoted(name) + " is not a command; known: " + known);
    return usage;
}

}  // namespace

std::span<const Command> commands() { return kCommands; }

std::string without_display() {
    std::string out;
    for (const Command& c : kCommands)
        if (!c.needs_display) out += (out.empty() ? "" : ", ") + std::string(c.name);
    return out;
}

files::DiskLibrary library() { return files::DiskLibrary(scenarios_folder()); }

void complain(const std::string& line) { std::cerr << files::printable(line, 2 * files::kLongestMessage) << "\n"; }

bool wrote(const std::string& why_not) {
    if (!why_not.empty()) complain(why_not);
    return why_not.empty();
}

void print(const files::Problems& problems) {
    for (const auto& p : problems) std::cerr << p.text() << "\n";
}

files::Replay replayed(const files::Record& record, const std::string& path, std::int64_t up_to) {
    files::Replay r = replay(record, path, up_to);
    print(r.problems);
    for (const auto& n : r.notes) complain(n);
    return r;
}

std::string nothing_started(std::size_t n) {
    return std::to_string(n) + (n == 1 ? " problem." : " problems.") + " Nothing was started.";
}

}  // namespace quarterturn::command

int main(int argc, char** argv) {
    using namespace quarterturn;
    command::keep_standard_streams();
    // A file that may not grow is said like a full disk.
    std::signal(SIGXFSZ, SIG_IGN);
    words::open_catalogue();
    words::use(words::units_of_locale());
    const std::string name = argc > 1 ? argv[1] : "open";
    const command::Arguments rest(argv + (argc > 1 ? 2 : 1), argv + argc);
    const int code = command::dispatch(name, rest);
    // What could not be printed was not done.
    std::cout.flush();
    if (std::cout && std::fflush(stdout) == 0) return code;
    std::cerr << "quarterturn " << name << ":1:1: standard output cannot be written\n";
    return command::cannot;
}
