// The pages as a browser prints them: on so many A4 as a folder takes, and readable where the screen is narrow.
#include "tests/support/catch.hpp"
#include <cstdio>

#include "tests/support/program.hpp"

using namespace quarterturn;
using test::run;

namespace {

bool browser() {
    if (std::system("command -v chromium >/dev/null && command -v pdfinfo >/dev/null") == 0) return true;
    WARN("no browser: pages were not printed; tests/run installs chromium and poppler-utils");
    return false;
}

const std::string kBrowser = "chromium --headless --no-sandbox --disable-gpu --user-data-dir=";

std::string said(const std::string& command) {
    std::string out;
    if (FILE* p = popen(command.c_str(), "r")) {
        for (int c = 0; (c = std::fgetc(p)) != EOF;) out += static_cast<char>(c);
        pclose(p);
    }
    return out;
}

//! What pdfinfo says of the page as it is printed.
std::string printed(const test::Scratch& folder, const std::string& page) {
    const std::string pdf = folder.file("page.pdf");
    std::remove(pdf.c_str());
    (void)said(kBrowser + folder.file("browser") + " --no-pdf-header-footer --print-to-pdf=" + pdf + " file://" + page +
               " 2>/dev/null");
    return said("pdfinfo " + pdf + " 2>&1");
}

int pages(const std::string& info) {
    const auto at = info.find("Pages:");
    return at == std::string::npos ? 0 : std::atoi(info.c_str() + at + 6);
}

}  // namespace

TEST_CASE("a debrief is printed on two A4 at most, a job sheet on one, whatever was played") {
    if (!browser()) return;
    const test::Scratch folder;
    for (const char* how : {"new-gas-valve --as hasty", "new-gas-valve", "two-showers-at-once --as blind",
                            "propane-conversion --as careless"}) {
        const std::string record = folder.file("r.jsonl");
        (void)run("expert " + std::string(how) + " --record " + record);
        (void)run("debrief " + record + " --html " + folder.file("d.html") + " --sheet " + folder.file("s.html"));
        INFO(how);
        const std::string debrief = printed(folder, folder.file("d.html"));
        INFO(debrief);
        CHECK(pages(debrief) >= 1);
        CHECK(pages(debrief) <= 2);
        CHECK(debrief.find("A4") != std::string::npos);
        const std::string sheet = printed(folder, folder.file("s.html"));
        CHECK(pages(sheet) == 1);
        CHECK(sheet.find("A4") != std::string::npos);
    }
}
