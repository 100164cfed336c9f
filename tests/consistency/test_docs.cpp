// The pages for people: each opens with the caution, says things in short sentences, leads nowhere that is not there,
// and what it shows works.
#include "tests/support/catch.hpp"
#include <filesystem>
#include <regex>

#include "sim/marking/marks.hpp"
#include "tests/support/files.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;

namespace {

std::vector<std::string> pages() {
    std::vector<std::string> out;
    for (const auto& e : std::filesystem::directory_iterator(test::source_path("docs")))
        if (e.path().extension() == ".md") out.push_back(e.path().string());
    return out;
}

//! Running text: without code, tables and headings, list marks taken off.
std::string running_text(const std::string& page) {
    std::istringstream in(page);
    std::string out;
    bool code = false;
    for (std::string line; std::getline(in, line);) {
        if (line.starts_with("```")) {
            code = !code;
            out += ". ";
        }
        if (code || line.starts_with("#") || line.starts_with("|") || line.starts_with(">") || line.starts_with("```"))
            continue;
        if (line.empty() || line.starts_with("- ") || std::regex_search(line, std::regex("^[0-9]+\\. "))) out += ". ";
        out += line + " ";
    }
    return out;
}

}  // namespace

TEST_CASE("every page of docs opens with the caution") {
    CHECK(pages().size() > 15);
    for (const std::string& p : pages()) {
        INFO(p);
        const std::string head = test::Scratch::read(p).substr(0, 1200);
        CHECK(head.find(words::caution()) != std::string::npos);
    }
}

TEST_CASE("the guides say things in sentences of at most 35 words") {
    for (const char* page :
         {"guide-trainee.md", "guide-instructor.md", "physics-for-teachers.md", "class.md", "packs.md"}) {
        std::string text = running_text(test::Scratch::read(test::source_path(std::string("docs/") + page)));
        text = std::regex_replace(text, std::regex("`[^`]*`"), "code");
        const std::regex end("[.:;?!]([*)\"]*)? ");
        for (std::sregex_token_iterator i(text.begin(), text.end(), end, -1), none; i != none; ++i) {
            const std::string sentence = *i;
            std::istringstream words(sentence);
            const auto n = std::distance(std::istream_iterator<std::string>(words), {});
            INFO(page << ": " << sentence);
            CHECK(n <= 35);
        }
    }
}

TEST_CASE("no page leads to a page that is not there") {
    const std::regex link("\\]\\(([^)#:]+)(#[^)]*)?\\)");
    std::vector<std::string> all = pages();
    all.push_back(test::source_path("README.md"));
    all.push_back(test::source_path("DEVELOPERS.md"));
    int links = 0;
    for (const std::string& p : all) {
        const std::string text = test::Scratch::read(p);
        for (std::sregex_iterator i(text.begin(), text.end(), link), none; i != none; ++i) {
            INFO(p << " leads to " << (*i)[1]);
            CHECK(std::filesystem::exists(std::filesystem::path(p).parent_path() / (*i)[1].str()));
            ++links;
        }
    }
    CHECK(links > 40);
}

TEST_CASE("the instructor's lesson is a lesson as it stands, and the expert passes it at both ends") {
    const std::string page = test::Scratch::read(test::source_path("docs/guide-instructor.md"));
    const auto from = page.find("```toml\n") + 8;
    const test::Scratch folder;
    const std::string path = folder.write("my-lesson.toml", page.substr(from, page.find("```", from) - from));
    for (const std::uint64_t seed : {1, 2, 3, 4, 5}) {
        const auto l = load_scenario(test::shipped(), path, seed);
        for (const auto& p : l.problems) UNSCOPED_INFO(p.text());
        REQUIRE(l.value);
        Attempt a(l.value->scenario, seed);
        marking::play(a);
        const Marks m = mark(a);
        CHECK(m.passed);
        CHECK(m.points > 95);
    }
}
