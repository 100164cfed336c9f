// The program itself with its window open, on a display of its own: what becomes of it when the machine is not as it
// should be.
#include <filesystem>

#include "tests/support/catch.hpp"
#include "tests/support/program.hpp"
#include "ui/window/window.hpp"

using namespace quarterturn;

namespace {

//! Opens a lesson on a display of its own and takes the display away once the record stands (or 5 s have gone): its
//! exit code. around: what stands before the program.
test::Ran until_the_display_goes(const test::Scratch& folder, const std::string& around, const std::string& arguments,
                                 const std::string& meanwhile = "true") {
    const std::string script = folder.write("go.sh", R"(cd )" + folder.file("") + R"(
rm -f number; mkfifo number
Xvfb -displayfd 3 -screen 0 1280x800x24 3>number >/dev/null 2>&1 &
server=$!
read -r display <number
DISPLAY=:$display )" + around + " '" + std::string(QUARTERTURN_PROGRAM) +
                                                         "' open " + arguments + R"( >out 2>err &
program=$!
sleep 2
)" + meanwhile + R"(
sleep 0.5
kill $server
wait $program
code=$?
wait $server
exit $code
)");
    const int status = std::system(("bash " + script).c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : 128, test::Scratch::read(folder.file("out")),
            test::Scratch::read(folder.file("err"))};
}

bool display() {
    if (window::display_can_be_opened()) return true;
    WARN("no display: the tests of the open window were left out; tests/run starts one with Xvfb");
    return false;
}

}  // namespace

TEST_CASE("the display goes while the window is open: exit 3, said, and the record can be gone on with") {
    if (!display()) return;
    const test::Scratch folder;
    // An attempt that was broken off, gone on with.
    const std::string list = folder.write("list.txt", "1 gas open\n");
    REQUIRE(test::run("run new-gas-valve --actions " + list + " --record " + folder.file("record.jsonl")).code == 1);
    const std::string before = test::Scratch::read(folder.file("record.jsonl"));
    const auto r = until_the_display_goes(folder, "", "record.jsonl");
    INFO(r.err);
    CHECK(r.code == 3);
    CHECK(r.err.find("The display is gone") != std::string::npos);
    CHECK(r.err.find("XIO") == std::string::npos);
    CHECK(test::Scratch::read(folder.file("record.jsonl")).starts_with(before));
    CHECK(files::read_record(folder.file("record.jsonl")).problems.empty());
}

TEST_CASE("without a home, a sound device or the lesson's folder the window opens and says what it misses") {
    if (!display()) return;
    const test::Scratch folder;
    const auto r = until_the_display_goes(
        folder, "env -u HOME -u XDG_DATA_HOME -u XDG_CONFIG_HOME ALSA_CONFIG_PATH=/nowhere", "new-gas-valve");
    INFO(r.err);
    CHECK(r.code == 3);  // it ran until the display went
    CHECK(r.err.find("The display is gone") != std::string::npos);
    std::filesystem::create_directories(folder.file("lib"));
    std::filesystem::copy(test::source_path("scenarios"), folder.file("lib"), std::filesystem::copy_options::recursive);
    // The files vanish while it is open: it has read them, and goes on.
    const auto gone = until_the_display_goes(folder, "env QUARTERTURN_SCENARIOS=" + folder.file("lib"), "new-gas-valve",
                                             "rm -rf lib");
    INFO(gone.err);
    CHECK(gone.code == 3);
    CHECK(gone.err.find("The display is gone") != std::string::npos);
}
