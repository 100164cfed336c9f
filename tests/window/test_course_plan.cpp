// The plan of a course: what was done, what comes next and why, and moving the choice on the shelf.
#include "tests/support/catch.hpp"

#include "ui/window/course_plan.hpp"
#include "ui/window/shelf_screen.hpp"

using namespace quarterturn;
using namespace quarterturn::window;

namespace {

bench::LessonCard lesson_of(const std::string& id, bench::Group g, double minutes,
                            std::vector<std::string> needs = {}) {
    bench::LessonCard s;
    s.id = id;
    s.title = "Title of " + id;
    s.course.group = g;
    s.course.minutes = minutes;
    s.course.needs = std::move(needs);
    return s;
}

OwnAttempt attempt_at(const std::string& lesson, bool ended, bool passed, double points, std::int64_t written = 1) {
    OwnAttempt a;
    a.path = "/somewhere/" + lesson + std::to_string(written) + ".jsonl";
    a.lesson = lesson;
    a.ended = ended;
    a.passed = passed;
    a.points = points;
    a.written = written;
    return a;
}

const PlannedLesson& planned(const CoursePlan& p, const std::string& id) {
    for (const auto& l : p.lessons)
        if (l.id == id) return l;
    FAIL("no lesson " << id);
    return p.lessons.front();
}

}  // namespace

TEST_CASE("a course in its order, with what became of each lesson") {
    using bench::Group;
    const std::vector<bench::LessonCard> lessons{
        lesson_of("hard", Group::hard, 30, {"b"}), lesson_of("b", Group::first_readings, 30, {"a"}),
        lesson_of("a", Group::first_readings, 30), lesson_of("c", Group::setting, 20)};
    CoursePlan p = plan_course(lessons, {});
    REQUIRE(p.lessons.size() == 4);
    CHECK(p.lessons[0].id == "a");
    CHECK(p.lessons[1].id == "b");
    CHECK(p.lessons[2].id == "c");
    CHECK(p.lessons[3].id == "hard");
    CHECK(p.next == 0);
    CHECK_FALSE(p.weakest);
    CHECK(planned(p, "b").still_needed == std::vector<std::string>{"Title of a"});
    // Passed once is passed; the best counts; a failed one is to be tried again; one not ended can be gone on with.
    p = plan_course(lessons, {attempt_at("a", true, true, 85, 1), attempt_at("a", true, false, 91, 2),
                              attempt_at("c", true, false, 40, 3), attempt_at("hard", false, false, 0, 4),
                              attempt_at("hard", false, false, 0, 9), attempt_at("other", true, true, 100, 1)});
    CHECK(planned(p, "a").progress == Progress::passed);
    CHECK(planned(p, "a").best == 91);
    CHECK(planned(p, "a").attempts == 2);
    CHECK(planned(p, "b").progress == Progress::not_yet);
    CHECK(planned(p, "b").still_needed.empty());
    CHECK(planned(p, "c").progress == Progress::again);
    CHECK(planned(p, "hard").progress == Progress::started);
    CHECK(planned(p, "hard").broken_off == "/somewhere/hard9.jsonl");
    CHECK(p.passed == 1);
    CHECK(p.lessons[*p.next].id == "b");
}

TEST_CASE("what comes next asks most of what is weakest, and what was begun comes first") {
    using bench::Competency;
    using bench::Group;
    std::vector<bench::LessonCard> lessons{lesson_of("a", Group::setting, 10), lesson_of("b", Group::setting, 20),
                                           lesson_of("c", Group::setting, 30)};
    lessons[0].weights.of = {10, 20, 40, 10, 10, 10};
    lessons[1].weights.of = {10, 40, 20, 10, 10, 10};
    lessons[2].weights.of = {10, 20, 40, 10, 10, 10};
    OwnAttempt weak = attempt_at("x", true, false, 60, 5);
    weak.weight = {10, 20, 30, 15, 15, 10};
    weak.earned = {10, 5, 30, 15, 15, 10};  // measuring
    CoursePlan p = plan_course(lessons, {weak});
    REQUIRE(p.weakest);
    CHECK(*p.weakest == Competency::measure);
    CHECK(p.weakest_share == 0.25);
    CHECK(p.lessons[*p.next].id == "b");
    // A newer attempt at the same lesson takes the older one's place.
    OwnAttempt better = weak;
    better.written = 6;
    better.earned = {10, 20, 30, 15, 15, 2};
    p = plan_course(lessons, {weak, better});
    CHECK(*p.weakest == Competency::close_out);
    p = plan_course(lessons, {weak, attempt_at("c", false, false, 0)});
    CHECK(p.lessons[*p.next].id == "c");
    // Everything passed: nothing is next.
    p = plan_course(
        lessons, {attempt_at("a", true, true, 90), attempt_at("b", true, true, 90), attempt_at("c", true, true, 90)});
    CHECK_FALSE(p.next);
}

TEST_CASE("the choice on the shelf stays in its group and in sight") {
    using bench::Group;
    std::vector<bench::LessonCard> lessons;
    for (int i = 0; i < 12; ++i)
        lessons.push_back(lesson_of("l" + std::to_string(10 + i), i < 8 ? Group::first_readings : Group::hard, 10));
    const CoursePlan p = plan_course(lessons, {});
    ShelfView v;
    v.rows = 5;
    move_choice(p, v, 1);
    CHECK(v.chosen == 1);
    move_choice(p, v, 5);
    CHECK(v.chosen == 6);
    CHECK(v.top == 2);
    move_choice(p, v, -100);
    CHECK(v.chosen == 0);
    CHECK(v.top == 0);
    v.group = static_cast<int>(Group::hard);
    CHECK(shelf_rows(p, v).size() == 4);
    move_choice(p, v, 1);  // what was chosen is not in this group
    CHECK(v.chosen == 8);
    move_choice(p, v, 100);
    CHECK(v.chosen == 11);
}
