// Every rule by hand-made courses, just inside and just outside each limit. No bench, no player, no lesson: the numbers
// here are written from common practice, not taken from the program.
#include "sim/marking/marks.hpp"
#include "tests/support/course.hpp"
#include "ui/words/words.hpp"

using namespace quarterturn;
using namespace quarterturn::test;

TEST_CASE("a sound job loses nothing") {
    const Course c = sound();
    for (const marking::Rule& r : marking::all_rules()) {
        const Verdict v = r.judge(c);
        INFO(word_of(r.id));
        CHECK(v.share == 1);
        CHECK_FALSE(v.critical);
    }
    const Course s = stopped();
    for (const marking::Rule& r : marking::all_rules()) {
        const Verdict v = r.judge(s);
        INFO(word_of(r.id));
        if (r.id == RuleId::hands_off) continue;  // the sound job has turned screws
        CHECK((v.share == 1 || !v.applies));
        CHECK_FALSE(v.critical);
    }
}

TEST_CASE("each competency's rules share out one whole of it") {
    for (const marking::Competency k :
         {Competency::prepare, Competency::measure, Competency::judge, Competency::safety, Competency::close_out}) {
        double sum = 0;
        for (const marking::Rule& r : marking::all_rules())
            if (r.competency == k) sum += r.share;
        CHECK(sum == Approx(1));
    }
}

TEST_CASE("CO2 may lie a tenth beyond its band, no more, and far out fails whoever leaves it in service") {
    Course c = sound();
    for (const bool high : {true, false}) {
        const RuleId id = high ? RuleId::high_fire : RuleId::low_fire;
        marking::Settled& s = high ? c.high : c.low;
        const double low = high ? 8.8 : 8.6;
        const double top = high ? 9.1 : 8.9;
        for (const double inside : {low - 0.09, low, top, top + 0.09}) {
            s.co2_pct = inside;
            CHECK(share(id, c) == 1);
        }
        s.co2_pct = low - 0.12;
        CHECK(share(id, c) < 0.5);
        CHECK(shows(id, c, Way::band_lean));
        CHECK_FALSE(critical(id, c));
        s.co2_pct = top + 0.12;
        CHECK(share(id, c) < 0.5);
        CHECK(shows(id, c, Way::band_rich));
        s.co2_pct = top + 0.28;
        CHECK_FALSE(critical(id, c));
        s.co2_pct = top + 0.32;
        CHECK(critical(id, c));
        s.co2_pct = low - 0.32;
        CHECK(critical(id, c));
        c.outcome = Outcome::made_safe;
        CHECK_FALSE(critical(id, c));
        c.outcome = Outcome::left_in_service;
        s.co2_pct = low + 0.1;
        s.flame = false;
        CHECK(critical(id, c));
        s.flame = true;
    }
    drop(c, "record found");
    drop(c, "record left");
    CHECK(share(RuleId::high_fire, c) == 0);
}

TEST_CASE("throttle at high fire first, then the offset at low fire") {
    Course c = sound();
    CHECK(share(RuleId::order, c) == 1);
    event(c, "turn throttle left 1/4").fire = Fire::low;
    CHECK(shows(RuleId::order, c, Way::throttle_away));
    event(c, "turn throttle left 1/4").fire = Fire::high;
    event(c, "turn offset left 1/8").fire = Fire::high;
    CHECK(shows(RuleId::order, c, Way::offset_away));
    event(c, "turn offset left 1/8").fire = Fire::low;
    std::swap(c.events[static_cast<std::size_t>(&event(c, "turn throttle left 1/4") - c.events.data())],
              c.events[static_cast<std::size_t>(&event(c, "turn offset left 1/8") - c.events.data())]);
    CHECK(shows(RuleId::order, c, Way::offset_first));
    CHECK(share(RuleId::order, c) < 1);
    c.found_high.co2_pct = 8.8;  // high fire was in as found: the offset may come first
    CHECK(share(RuleId::order, c) == 1);
    c.found_high.co2_pct = 8.7;
    CHECK(share(RuleId::order, c) < 1);
}

TEST_CASE("a quarter turn of the throttle and an eighth of the offset are the most for one step") {
    const auto with = [](const char* was, const char* is) {
        Course c = sound();
        event(c, was).action = *parse_action(is).action;
        return c;
    };
    CHECK(share(RuleId::steps, with("turn throttle left 1/4", "turn throttle right 1/4")) == 1);
    CHECK(shows(RuleId::steps, with("turn throttle left 1/4", "turn throttle left 1/2"), Way::large_throttle_step));
    CHECK(shows(RuleId::steps, with("turn offset left 1/8", "turn offset left 1/4"), Way::large_offset_step));
    Course c = sound();
    // A second turn that was not waited for makes one step of both, a little more than a quarter.
    c.events.insert(c.events.begin() + (&event(c, "turn throttle left 1/4") - c.events.data()) + 1,
                    done(905, "turn throttle left 1/32", Fire::high, false));
    CHECK(shows(RuleId::steps, c, Way::large_throttle_step));
    event(c, "turn throttle left 1/32").settled = true;
    CHECK(share(RuleId::steps, c) == 1);
    // Too far and at once half of it back: no more than an eighth in all.
    event(c, "turn throttle left 1/32") = done(905, "turn throttle right 1/8", Fire::high, false);
    CHECK(share(RuleId::steps, c) == 1);
}

TEST_CASE("what needs no turning is not turned, and a stop leaves the screws alone") {
    Course c = sound();
    CHECK_FALSE(judged(RuleId::hands_off, c).applies);
    c.found_high.co2_pct = 8.92;
    c.found_low.co2_pct = 8.75;
    CHECK(shows(RuleId::hands_off, c, Way::turned_needlessly));
    c.found_high.co2_pct = 8.90;  // too near the edge to say
    CHECK_FALSE(judged(RuleId::hands_off, c).applies);
    // A turn that was taken back at once is a slip.
    c.found_high.co2_pct = 8.92;
    c.events.push_back(done(1210, "turn offset right 1/8", Fire::low, false));
    c.events.push_back(done(1215, "turn throttle right 1/4", Fire::high, false));
    CHECK(shows(RuleId::hands_off, c, Way::turned_and_undone));
    CHECK(share(RuleId::hands_off, c) == 0.5);  // the throttle was tried for five minutes
    Course s = stopped();
    s.answer.stop_from = at(1201);  // it came while one worked
    CHECK(share(RuleId::hands_off, s) == 1);
    s.answer.stop_from = 0;  // it was there, and could be seen
    CHECK(shows(RuleId::hands_off, s, Way::turned_against_cause));
    s.answer.stop_from = at(1201);
    // Tried with the reason known, and back at once: no slip.
    Course tried = stopped();
    tried.answer.stop_from = 0;
    std::erase_if(tried.events, [](const Event& e) { return is_setting(e.action); });
    CHECK(share(RuleId::hands_off, tried) == 1);
    tried.events.push_back(done(1215, "turn throttle left 1/4", Fire::high));
    tried.events.push_back(done(1218, "turn throttle right 1/4", Fire::high));
    CHECK(shows(RuleId::hands_off, tried, Way::turned_and_back));
    // Known at 1210: a minute to turn back, after that it is turning against better knowledge.
    s.events.push_back(done(1270, "turn offset left 1/8", Fire::low));
    CHECK(share(RuleId::hands_off, s) == 1);
    s.events.back().action.step = at(1271);
    CHECK(shows(RuleId::hands_off, s, Way::turned_against_cause));
    s.events.pop_back();
    s.outcome = Outcome::left_in_service;
    CHECK(shows(RuleId::hands_off, s, Way::hands_off_not_safe));
}

TEST_CASE("parts for the gas, and the sealed screw") {
    Course c = sound();
    c.parts_asked = true;
    c.right_parts = GasKind::propane;
    c.condition.orifice = GasKind::propane;
    c.condition.gas_switch = GasKind::propane;
    CHECK(share(RuleId::parts, c) == 1);
    c.condition.gas_switch = GasKind::natural;
    CHECK(share(RuleId::parts, c) == 0.5);
    CHECK(critical(RuleId::parts, c));
    c.condition.gas_switch = GasKind::propane;
    c.condition.orifice = GasKind::natural;
    CHECK(critical(RuleId::parts, c));
    c.outcome = Outcome::made_safe;
    CHECK_FALSE(critical(RuleId::parts, c));
    Course s = sound();
    s.events.push_back(done(1750, "seal off"));
    CHECK(shows(RuleId::sealed, s, Way::seal_broken));
    CHECK(share(RuleId::sealed, s) == 0);
    CHECK_FALSE(critical(RuleId::sealed, s));
    // Turned, seal broken before it or not, put back on or not, left in service or not.
    s.events.push_back(done(1760, "turn sealed left 1/32", Fire::high));
    CHECK(critical(RuleId::sealed, s));
    s.events.push_back(done(1770, "seal on"));
    CHECK(critical(RuleId::sealed, s));
    s.outcome = Outcome::made_safe;
    CHECK(critical(RuleId::sealed, s));
}

TEST_CASE("the zero: warm, in clean air, out of the flue") {
    Course c = sound();
    event(c, "zero").action.step = at(70 + 111);
    CHECK(share(RuleId::zero, c) == 1);
    event(c, "zero").action.step = at(70 + 60);
    CHECK(shows(RuleId::zero, c, Way::zero_cold));
    CHECK(share(RuleId::zero, c) <= 0.6);
    event(c, "zero").action.step = at(200);
    event(c, "zero").before.room_co_ppm = 4.9;
    CHECK(share(RuleId::zero, c) == 1);
    event(c, "zero").before.room_co_ppm = 5.2;
    CHECK(shows(RuleId::zero, c, Way::zero_in_bad_air));
    event(c, "zero").action = *parse_action("zero outdoors").action;
    c.events[7].action.step = at(200);
    CHECK(share(RuleId::zero, c) == 1);
    Course in = sound();
    in.events.insert(in.events.begin() + 7, done(150, "probe in"));
    CHECK(shows(RuleId::zero, in, Way::zero_in_flue));
    drop(in, "zero");
    CHECK(shows(RuleId::zero, in, Way::zero_never));
    // Out of the flue, and its gas still in hose and cells.
    Course spent = sound();
    event(spent, "zero").trap_o2_pct = 20.8;
    CHECK(share(RuleId::zero, spent) == 1);
    event(spent, "zero").trap_o2_pct = 20.7;
    CHECK(shows(RuleId::zero, spent, Way::zero_spent_gas));
    CHECK(judged(RuleId::zero, spent).failing);
    // A second zero before as left is judged as the first one was; a good one costs nothing.
    Course twice = sound();
    twice.events.insert(twice.events.end() - 5, {done(1390, "probe out"), done(1400, "zero outdoors")});
    CHECK(share(RuleId::zero, twice) == 1);
    Course late = sound();
    late.events.insert(late.events.end() - 5, done(1400, "zero"));
    CHECK(shows(RuleId::zero, late, Way::zero_in_flue));
    Course f = sound();
    f.supplied = GasKind::propane;
    CHECK(shows(RuleId::fuel, f, Way::fuel_wrong_at_reading));
}

TEST_CASE("looked before lighting, not after") {
    Course c = sound();
    c.findings[4].step = at(256);  // vent, in the second in which it is lit
    CHECK(share(RuleId::surroundings, c) == 1);
    c.findings[4].step = at(257);
    CHECK(share(RuleId::surroundings, c) == Approx(2.0 / 3));
    std::erase_if(c.findings, [](const Finding& f) { return to_text(f.by) == "smell"; });
    CHECK(share(RuleId::surroundings, c) == Approx(1.0 / 3));
    c = sound();
    c.findings[1].step = at(257);
    CHECK(share(RuleId::papers, c) == Approx(2.0 / 3));
    CHECK_FALSE(judged(RuleId::papers, c).failing);
    std::erase_if(c.findings, [](const Finding& f) { return to_text(f.by) == "look sheet"; });
    CHECK(judged(RuleId::papers, c).failing);
    // Stopped before lighting for what was seen: the nose belongs to it all the same.
    Course s = stopped();
    during(s, 1, 1901, [](Moment& m) { m.lighting = m.truth.flame = false; });
    s.shown.front().step = at(60);
    CHECK(share(RuleId::surroundings, s) == 1);
    std::erase_if(s.findings, [](const Finding& f) { return to_text(f.by) == "smell"; });
    CHECK(shows(RuleId::surroundings, s, Way::stopped_without_nose));
    CHECK(share(RuleId::surroundings, s) == 0.4);
}

TEST_CASE("competencies keep their weight; what was not exercised earns nothing of it") {
    const auto marked = [](const Course& c, double least = 65) {
        return marking::mark(c, {bench::Weights{}, {}, 80, least});
    };
    marking::Marks m = marked(sound());
    CHECK(m.points == Approx(100));
    CHECK(m.passed);
    for (const Competency k : {Competency::prepare, Competency::measure, Competency::adjust})
        CHECK(m.exercised[static_cast<std::size_t>(k)]);
    // Nothing but papers read.
    Course idle = sound();
    idle.events.resize(6);
    idle.job_sheet = {};
    idle.moments.clear();
    idle.found_high.co2_pct = 8.95;
    idle.found_low.co2_pct = 8.75;
    m = marked(idle);
    for (const Competency k : {Competency::measure, Competency::adjust, Competency::judge, Competency::safety})
        CHECK(m.points_in(k) == 0);
    CHECK(m.of_in(Competency::adjust) == Approx(30));
    CHECK(m.points < 15);
    CHECK_FALSE(m.passed);
    // Run, and neither read nor turned: the factory seal was left alone, and no screw was ever in question.
    Course watched = sound();
    std::erase_if(watched.events, [](const Event& e) { return is_setting(e.action) || e.action.verb == Verb::record; });
    CHECK(share(RuleId::sealed, watched) == 1);
    CHECK(marked(watched).points_in(Competency::adjust) == 0);
    // One competency far below its least share fails, whatever the sum.
    Course weak = sound();
    weak.job_sheet.standing_pa = weak.job_sheet.working_pa = weak.job_sheet.input_high_kw =
        weak.job_sheet.ambient_co = {};
    for (Reading* r : {&weak.job_sheet.found_high, &weak.job_sheet.found_low}) r->settled = false;
    m = marked(weak, 65);
    const double share = m.points_in(Competency::measure) / m.of_in(Competency::measure);
    CHECK(m.points > 80);
    CHECK(m.passed == (share >= 0.65));
    CHECK(marked(weak, 100 * share - 1).passed);
    CHECK_FALSE(marked(weak, 100 * share + 1).passed);
    CHECK_FALSE(m.critical);
}

TEST_CASE("time is free up to one and a half times the expert's, then costs three points at most") {
    const auto cost = [](double par_s, double announced_s = 0) {
        return marking::mark(sound(), {bench::Weights{}, {}, 80, 65, par_s, announced_s}).time_cost;
    };
    // The sound course takes 1900 s.
    CHECK(cost(0) == 0);
    CHECK(cost(1267) == 0);
    CHECK(cost(1266) > 0);
    CHECK(cost(1900 / 1.5 / 1.5) == Approx(1.5));
    CHECK(cost(1900 / 1.5 / 2) == Approx(3));
    CHECK(cost(100) == Approx(3));
    // Who keeps to what the lesson says it takes is not late.
    CHECK(cost(100, 1900) == 0);
    CHECK(cost(100, 1899) > 0);
    CHECK(cost(100, 950) == Approx(3));
}

TEST_CASE("every way to lose a rule belongs to one, and a rule's ways are its own") {
    const Course c;  // nobody did anything: most rules are lost
    for (const marking::Rule& r : marking::all_rules()) {
        INFO(word_of(r.id));
        CHECK_FALSE(r.ways.empty());
        const Verdict v = r.judge(c);
        if (!v.applies || v.share >= 1) continue;
        for (const auto& remark : v.remarks)
            CHECK((std::find(r.ways.begin(), r.ways.end(), remark.what) != r.ways.end() || v.remarks.size() > 1));
    }
}

TEST_CASE("what is taught and what can be lost are the same ways") {
    for (int i = 0; i < marking::kWayCount; ++i) {
        const Way w = static_cast<Way>(i);
        bool lost = false;
        for (const marking::Rule& r : marking::all_rules())
            lost |= std::find(r.ways.begin(), r.ways.end(), w) != r.ways.end();
        INFO(i);
        CHECK(lost == !words::teaches(w).empty());
    }
}
