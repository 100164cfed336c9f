// The cards of the parts: everything an action list can do is reached somewhere in the window, and says what it found.
#include "tests/support/catch.hpp"
#include <set>

#include "sim/bench/action_text.hpp"
#include "sim/bench/actions.hpp"
#include "sim/practice/part.hpp"
#include "tests/support/files.hpp"
#include "ui/window/card_rows.hpp"
#include "ui/window/part_places.hpp"
#include "ui/window/session.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using namespace quarterturn::window;

namespace {

std::set<std::string> offered(const Session& s) {
    std::set<std::string> out;
    for (std::size_t i = 0; i < practice::kPartCount; ++i)
        for (const int step : {16, 8, 4, 2, 1})
            for (const CardRow& r : card_rows(static_cast<practice::Part>(i), s.papers(), s.seen(), step))
                for (const CardCell& c : r.cells) out.insert(bench::to_text(c.action));
    return out;
}

void act(Session& s, const char* words) {
    INFO(words);
    REQUIRE(s.act(*parse_action(words).action));
    s.set_speed(20);
    for (int i = 0; i < 4000 && s.seen().busy.set; ++i) s.advance(std::chrono::milliseconds(50));
    s.advance(std::chrono::milliseconds(100));
}

const CardRow* row_with(const std::vector<CardRow>& rows, const std::string& action) {
    for (const CardRow& r : rows)
        for (const CardCell& c : r.cells)
            if (bench::to_text(c.action) == action) return &r;
    return nullptr;
}

}  // namespace

TEST_CASE("every action of an action list is reached at a part, on the job sheet, in the tray or in the top bar") {
    // With everything possible: a kit, the manometer on, the seal broken, a lock-out.
    Session s(test::lesson("does-not-light"), 1, "");
    act(s, "manometer on");
    act(s, "seal off");
    const auto all = offered(s);
    std::set<practice::Verb> by_card, elsewhere;
    for (const auto& row : bench::action_rows()) {
        bool card = false;
        for (std::size_t i = 0; i < practice::kPartCount; ++i)
            for (const Action& a : bench::offered_at(static_cast<practice::Part>(i))) {
                if (a.verb != row.verb) continue;
                const auto part = static_cast<std::size_t>(practice::part_of(a));
                CHECK(part == i);
                card |= part < practice::kDrawnParts || part == static_cast<std::size_t>(practice::Part::instructions);
            }
        (card ? by_card : elsewhere).insert(row.verb);
    }
    // These have their own place: job sheet, tray, top bar. All others stand on a card.
    CHECK(elsewhere == std::set<practice::Verb>{practice::Verb::tool, practice::Verb::enter, practice::Verb::strike,
                                                practice::Verb::remark, practice::Verb::cause,
                                                practice::Verb::also_cause, practice::Verb::decide,
                                                practice::Verb::hand_over, practice::Verb::hint,
                                                practice::Verb::make_safe, practice::Verb::leave});
    for (const char* a : {"look vent",
                          "look filter",
                          "listen",
                          "smell",
                          "windows open",
                          "windows shut",
                          "gas open",
                          "port open",
                          "probe in",
                          "zero",
                          "zero outdoors",
                          "fuel propane",
                          "print",
                          "record standing",
                          "record working",
                          "record ambient",
                          "record outlet",
                          "record venturi",
                          "record input",
                          "manometer to outlet",
                          "orifice propane",
                          "switch natural",
                          "repair tube",
                          "repair hose",
                          "set probe",
                          "drain trap",
                          "change filter",
                          "clear drain",
                          "set fan",
                          "tell",
                          "get out",
                          "call",
                          "cap throttle off",
                          "cap offset on",
                          "seal on",
                          "turn sealed left 1/4",
                          "clock meter 60",
                          "sample intake",
                          "test joints",
                          "test hose",
                          "forced fire low",
                          "power on",
                          "analyzer on"}) {
        INFO(a);
        CHECK(all.count(a));
    }
    // What makes no sense is left out.
    Session fresh(test::lesson("out-at-night"), 1, "");
    const auto few = offered(fresh);
    CHECK_FALSE(few.count("turn sealed left 1/4"));
    CHECK_FALSE(few.count("manometer to outlet"));
    CHECK_FALSE(few.count("reset"));
}

TEST_CASE("a card says how things stand, what was found, and by which tag") {
    Session s(test::lesson("out-at-night"), 1, "");
    using practice::Part;
    const auto rows = [&](Part p) { return card_rows(p, s.papers(), s.seen(), 8); };
    const CardRow* tap = nullptr;
    auto all = rows(Part::gas_tap);
    tap = row_with(all, "gas open");
    REQUIRE(tap);
    CHECK(tap->is_state);
    REQUIRE(tap->cells.size() == 2);
    CHECK(bench::to_text(tap->cells[0].action) == "gas shut");  // shut first, as everywhere
    CHECK(tap->cells[0].on);
    CHECK_FALSE(tap->cells[1].on);
    act(s, "gas open");
    all = rows(Part::gas_tap);
    CHECK(row_with(all, "gas open")->cells[1].on);
    all = rows(Part::terminal);
    CHECK(row_with(all, "look vent")->found.empty());
    CHECK(row_with(all, "look vent")->seconds == 20);
    act(s, "smell");
    act(s, "look vent");
    all = rows(Part::terminal);
    CHECK(row_with(all, "look vent")->tag == 2);
    CHECK(row_with(all, "look vent")->found == words::say(s.seen().findings[1], s.papers()));
    CHECK(tags_of(Part::terminal, s.seen()) == std::vector<int>{2});
    CHECK(tags_of(Part::room, s.seen()) == std::vector<int>{1});
    CHECK(tags_of(Part::intake, s.seen()).empty());
    act(s, "manometer on");
    act(s, "record standing");
    all = rows(Part::test_points);
    CHECK(row_with(all, "record standing")->found.find("standing ") == 0);
}

TEST_CASE("every part of the drawing has its place, its name and its line, and none lies wholly over another") {
    const Session kit(test::lesson("does-not-light"), 1, "");
    for (std::size_t i = 0; i < practice::kDrawnParts; ++i) {
        const auto p = static_cast<practice::Part>(i);
        INFO(practice::part_word(p));
        CHECK_FALSE(words::name(p).empty());
        CHECK_FALSE(words::meaning(p).empty());
        // A kit appliance, so that orifice and switch have something to offer.
        CHECK_FALSE(card_rows(p, kit.papers(), kit.seen(), 8).empty());
        if (p == practice::Part::analyzer) continue;
        REQUIRE(place_of(p));
    }
    for (const auto& [w, h, text] :
         {std::tuple(1280, 800, 1.0), std::tuple(1024, 700, 1.0), std::tuple(1920, 1080, 1.0),
          std::tuple(1280, 800, 1.5), std::tuple(1280, 800, 2.0)}) {
        for (const PartPlace& a : part_places()) {
            bool somewhere = false;
            for (const int page : {0, 1, 2}) {
                const Layout l = lay_out(w, h, text, page);
                INFO(practice::part_word(a.part) << " " << w << " " << text << " page " << page);
                const Rect r = part_rect(a.part, l);
                if (r.w <= 0) continue;
                somewhere = true;
                CHECK(r.w >= 20);
                CHECK(r.h >= 20);
                CHECK(r.x >= 0);
                CHECK(r.bottom() <= l.h);
                for (const PartPlace& b : part_places()) {
                    if (a.part == b.part) continue;
                    const Rect o = part_rect(b.part, l);
                    CHECK_FALSE(
                        (o.w > 0 && o.x <= r.x && o.y <= r.y && o.right() >= r.right() && o.bottom() >= r.bottom()));
                }
            }
            CHECK(somewhere);
        }
    }
}

TEST_CASE("a card stands beside its part, inside the window, and never over readings or tray") {
    const auto over = [](const Rect& a, const Rect& b) {
        return a.x < b.right() - 0.5 && b.x < a.right() - 0.5 && a.y < b.bottom() - 0.5 && b.y < a.bottom() - 0.5;
    };
    for (const auto& [w, h] :
         {std::pair(1280, 800), std::pair(1024, 700), std::pair(1920, 1080), std::pair(2560, 1440)})
        for (const double text : {1.0, 1.5, 2.0}) {
            const Layout l = lay_out(w, h, text);
            for (const PartPlace& p : part_places())
                for (const double high : {100.0, 200.0, 290.0}) {
                    INFO(practice::part_word(p.part) << " " << w << "x" << h << " text " << text << " card " << high);
                    const Rect card = card_place(p.part, 430, high, l);
                    CHECK(card.x >= 0);
                    CHECK(card.y >= l.top.bottom());
                    CHECK(card.right() <= l.w);
                    CHECK(card.bottom() <= l.bottom.y);
                    if (l.tray.w > 0 && !l.single()) CHECK_FALSE(over(card, l.tray));
                    CHECK_FALSE(over(card, l.readings));
                    if (!l.balloons() && high < 250) CHECK_FALSE(over(card, part_rect(p.part, l)));
                }
        }
}
