#include "sim/school/class_row.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <set>
#include <tuple>

#include "sim/files/problem.hpp"
#include "sim/school/moment.hpp"

namespace quarterturn::school {

namespace {

//! Who a row is of: a record that nobody signed stands for itself.
std::string whose(const ClassRow& r) { return r.pupil.empty() ? "\n" + r.record : r.pupil; }

//! The moment an attempt was begun; none: before all that have one.
std::int64_t begun(const ClassRow& r) { return moment_from(r.started).value_or(0); }

bool before(const ClassRow& a, const ClassRow& b) {
    return std::pair(begun(a), a.record) < std::pair(begun(b), b.record);
}

std::string file_of(const std::string& path) { return path.substr(path.rfind('/') + 1); }

}  // namespace

std::vector<RuleLost> lost_most(std::span<const ClassRow> rows) {
    struct Told {
        std::set<std::string> lost, asked;
        std::map<marking::Way, int> ways;
        bool critical = false;
    };
    std::map<RuleId, Told> by;
    for (const ClassRow& r : rows) {
        if (!r.counts()) continue;
        const std::string once = whose(r) + "\n" + r.lesson;
        for (const RuleId id : r.asked) by[id].asked.insert(once);
        for (const Loss& l : r.lost) {
            Told& t = by[l.rule];
            t.lost.insert(once);
            ++t.ways[l.way];
            t.critical |= l.critical;
        }
    }
    std::vector<RuleLost> out;
    for (const auto& [id, t] : by) {
        if (t.lost.empty()) continue;
        const auto most = std::max_element(t.ways.begin(), t.ways.end(),
                                           [](const auto& a, const auto& b) { return a.second < b.second; });
        out.push_back({id, most->first, static_cast<int>(t.lost.size()), static_cast<int>(t.asked.size()), t.critical});
    }
    // What nobody passes with comes before what is lost oftener.
    std::stable_sort(out.begin(), out.end(), [](const RuleLost& a, const RuleLost& b) {
        return std::pair(a.critical, a.lost) > std::pair(b.critical, b.lost);
    });
    return out;
}

const ClassRow* best_of(std::span<const ClassRow* const> rows) {
    const ClassRow* best = nullptr;
    for (const ClassRow* r : rows) {
        if (!r->counts()) continue;
        if (!best || std::pair(r->stands_as_passed(), r->points) > std::pair(best->stands_as_passed(), best->points))
            best = r;
    }
    return best;
}

Profile profile(std::span<const ClassRow> rows) {
    Profile out{};
    for (std::size_t c = 0; c < out.size(); ++c) {
        // Of each pupil the best attempt of each lesson, and of those the mean.
        std::map<std::string, std::map<std::string, double>> best;
        for (const ClassRow& r : rows) {
            if (!r.counts() || !r.exercised[c] || r.weight[c] <= 0) continue;
            double& b = best[whose(r)].try_emplace(r.lesson, 0).first->second;
            b = std::max(b, r.earned[c] / r.weight[c]);
        }
        std::vector<double> all;
        for (const auto& [who, lessons] : best) {
            double sum = 0;
            for (const auto& [lesson, share] : lessons) sum += share;
            all.push_back(sum / static_cast<double>(lessons.size()));
        }
        std::sort(all.begin(), all.end());
        const std::size_t n = all.size();
        out[c] = n == 0 ? -1 : n % 2 ? all[n / 2] : (all[n / 2 - 1] + all[n / 2]) / 2;
    }
    return out;
}

void number_attempts(std::vector<ClassRow>& rows) {
    std::map<std::pair<std::string, std::string>, std::vector<ClassRow*>> by;
    for (ClassRow& r : rows)
        if (r.marked) by[{r.pupil, r.column()}].push_back(&r);
    for (auto& [who, theirs] : by) {
        std::stable_sort(theirs.begin(), theirs.end(),
                         [](const ClassRow* a, const ClassRow* b) { return before(*a, *b); });
        int n = 0;
        for (ClassRow* r : theirs) r->attempt = ++n;
    }
}

namespace {

//! The share of two lists of times that lie within half a second of each other.
double together(const std::vector<float>& a, const std::vector<float>& b) {
    constexpr float near_s = 0.5F;
    std::size_t near = 0;
    for (std::size_t i = 0; i < a.size() && i < b.size(); ++i) near += std::abs(a[i] - b[i]) < near_s;
    return a.empty() ? 0 : static_cast<double>(near) / static_cast<double>(a.size());
}

void find_alike(std::vector<ClassRow>& rows) {
    constexpr double most = 0.9;
    std::map<std::uint64_t, std::vector<ClassRow*>> by;
    for (ClassRow& r : rows) {
        if (!r.marked || r.copied || r.deeds == 0) continue;
        std::vector<ClassRow*>& same = by[r.deeds];
        const auto at = std::find_if(same.begin(), same.end(), [&](const ClassRow* o) {
            return o->pupil != r.pupil && together(o->times, r.times) > most;
        });
        if (at != same.end())
            r.add_doubt("did the same at the same times as " + file_of((*at)->record));
        else
            same.push_back(&r);
    }
}

//! A record that cannot be read: is it of this pupil's job? Its name says so, as the station gave it; else its first
//! line, where the name says nothing.
bool is_of_job(const ClassRow& broken, const std::string& pack, const std::string& pupil) {
    const std::string name = file_of(broken.record);
    const std::string given = "pack-" + pack + "-";
    if (!name.starts_with(given)) return broken.pack == pack && broken.pupil == pupil;
    const std::string rest = name.substr(given.size());
    return rest == pupil + ".jsonl" ||
           (rest.starts_with(pupil + "-") && rest.find_first_not_of("0123456789", pupil.size() + 1) == rest.size() - 6);
}

//! A job of a pack is done once: of a pupil's records the one begun first counts.
void find_repeated(std::vector<ClassRow>& rows) {
    std::map<std::pair<std::string, std::string>, ClassRow*> first;
    for (ClassRow& r : rows) {
        if (!r.marked || r.pack.empty() || r.copied || r.foreign) continue;
        const auto [at, is_new] = first.emplace(std::pair(r.pack, r.pupil), &r);
        if (is_new) continue;
        ClassRow* later = &r;
        if (before(r, *at->second)) std::swap(later, at->second);
        later->copied = true;
        later->passed = false;
        later->add_doubt("a second record of this pupil's job, begun after " + file_of(at->second->record));
    }
    // One that cannot be read any more may be the one that was begun first.
    for (const ClassRow& broken : rows) {
        if (broken.marked || (broken.pack.empty() && !file_of(broken.record).starts_with("pack-"))) continue;
        for (auto& [whose, row] : first)
            if (is_of_job(broken, whose.first, whose.second))
                row->add_doubt("another record of this pupil's job is damaged: " + file_of(broken.record));
    }
}

//! It lies in the folder of whoever it says it is of.
bool at_home(const ClassRow& r) {
    return !r.pupil.empty() && std::filesystem::path(r.record).parent_path().filename() == r.pupil;
}

}  // namespace

void find_copies(std::vector<ClassRow>& rows) {
    std::map<std::uint64_t, ClassRow*> first;
    for (ClassRow& r : rows) {
        if (!r.marked || r.edited) continue;
        const auto [at, is_new] = first.emplace(r.chain, &r);
        if (is_new) continue;
        ClassRow* copy = &r;
        // Of two the one that lies where its pupil's belong is the attempt, else the first.
        const bool swaps = at_home(r) != at_home(*at->second) ? at_home(r) : before(r, *at->second);
        if (swaps) std::swap(copy, at->second);
        copy->copied = true;
        copy->passed = false;
        copy->add_doubt("the same attempt as " + file_of(at->second->record));
        if (const auto folder = std::filesystem::path(copy->record).parent_path().filename().string();
            at_home(*at->second) && folder != copy->pupil)
            copy->add_doubt("it lies in the folder " + files::printable(folder, 80));
    }
    find_repeated(rows);
    find_alike(rows);
}

}  // namespace quarterturn::school
