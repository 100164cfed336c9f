#include "ui/window/course_plan.hpp"

#include <algorithm>
#include <map>

namespace quarterturn::window {

namespace {

void take_attempts(PlannedLesson& l, const std::vector<OwnAttempt>& attempts) {
    std::int64_t broken_at = -1, ended_at = -1;
    for (const OwnAttempt& a : attempts) {
        if (a.lesson != l.id) continue;
        if (!a.ended) {
            if (a.written > broken_at) {
                broken_at = a.written;
                l.broken_off = a.path;
                l.broken_off_min = a.minutes;
            }
            continue;
        }
        ++l.attempts;
        if (a.written > ended_at) {
            ended_at = a.written;
            l.ended = a.path;
        }
        l.best = std::max(l.best, a.points);
        if (a.passed) l.progress = Progress::passed;
    }
    if (l.progress == Progress::passed) return;
    l.progress = l.attempts ? Progress::again : !l.broken_off.empty() ? Progress::started : Progress::not_yet;
}

//! The competency with the least share of its points, over the newest attempt at each lesson.
void find_weakest(CoursePlan& plan, const std::vector<OwnAttempt>& attempts) {
    std::map<std::string, const OwnAttempt*> newest;
    for (const OwnAttempt& a : attempts)
        if (a.ended)
            if (auto& n = newest[a.lesson]; !n || a.written >= n->written) n = &a;
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i) {
        double earned = 0, of = 0;
        for (const auto& [lesson, a] : newest) {
            earned += a->earned[i];
            of += a->weight[i];
        }
        if (of <= 0) continue;
        const double share = earned / of;
        if (plan.weakest && share >= plan.weakest_share) continue;
        plan.weakest = static_cast<bench::Competency>(i);
        plan.weakest_share = share;
    }
}

//! In the first group that has something open: the lesson that asks most of what is weakest.
void choose_next(CoursePlan& plan) {
    std::optional<bench::Group> group;
    double most = -1;
    for (std::size_t i = 0; i < plan.lessons.size(); ++i) {
        const PlannedLesson& l = plan.lessons[i];
        if (l.progress == Progress::passed || !l.still_needed.empty()) continue;
        if (group && l.group != *group) break;
        group = l.group;
        // What was begun is ended first.
        const double pull = (l.broken_off.empty() ? 0 : 1000) +
                            (plan.weakest && plan.weakest_share < 0.9 ? l.weights[*plan.weakest] : 0);
        if (pull <= most) continue;
        most = pull;
        plan.next = i;
    }
}

}  // namespace

void sort_course(std::vector<bench::LessonCard>& lessons) {
    std::stable_sort(lessons.begin(), lessons.end(), [](const bench::LessonCard& a, const bench::LessonCard& b) {
        return comes_before(a.course, b.course);
    });
}

CoursePlan plan_course(std::vector<bench::LessonCard> lessons, const std::vector<OwnAttempt>& attempts) {
    sort_course(lessons);
    CoursePlan plan;
    for (const bench::LessonCard& s : lessons) {
        PlannedLesson l;
        l.id = s.id;
        l.title = s.title;
        l.aim = s.course.aim;
        l.group = s.course.group;
        l.minutes = s.course.minutes;
        l.coached = s.coached;
        l.teaches = s.course.teaches;
        l.needs = s.course.needs;
        l.weights = s.weights;
        take_attempts(l, attempts);
        plan.passed += l.progress == Progress::passed;
        plan.lessons.push_back(std::move(l));
    }
    for (PlannedLesson& l : plan.lessons)
        for (const std::string& needed : l.needs)
            for (const PlannedLesson& other : plan.lessons)
                if (other.id == needed && other.progress != Progress::passed) l.still_needed.push_back(other.title);
    find_weakest(plan, attempts);
    choose_next(plan);
    return plan;
}

}  // namespace quarterturn::window
