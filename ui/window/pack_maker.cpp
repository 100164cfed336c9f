#include "ui/window/pack_maker.hpp"

#include <algorithm>
#include <ctime>

#include "sim/files/output.hpp"
#include "ui/words/words.hpp"

namespace quarterturn::window {

using words::say;
using words::tr;

PackMaker::PackMaker(std::shared_ptr<const files::Library> library, school::Roster roster, school::KeyPair keys,
                     PackPlace place)
    : library_(std::move(library)), roster_(std::move(roster)), keys_(std::move(keys)), place_(std::move(place)) {
    std::vector<std::pair<bench::Curriculum, PackLesson>> found;
    for (const std::string& name : library_->names(files::FileKind::lesson))
        if (auto l = files::load_scenario(*library_, name); l.value)
            found.push_back({l.value->scenario.course, {name, l.value->scenario.title, false}});
    std::stable_sort(found.begin(), found.end(),
                     [](const auto& a, const auto& b) { return comes_before(a.first, b.first); });
    for (auto& [course, lesson] : found) lessons_.push_back(std::move(lesson));
}

school::TermsRead PackMaker::terms() const {
    return school::read_terms(
        {typed(PackField::title), typed(PackField::opens), typed(PackField::closes), typed(PackField::minutes)},
        std::time(nullptr));
}

std::string PackMaker::problem(PackField f) const {
    for (const school::TermsProblem& p : terms().problems) {
        const PackField of = p.field == school::TermsField::title    ? PackField::title
                             : p.field == school::TermsField::opens  ? PackField::opens
                             : p.field == school::TermsField::closes ? PackField::closes
                                                                     : PackField::minutes;
        if (of == f) return words::say(p.what);
    }
    return {};
}

std::vector<school::Told> PackMaker::warnings() const {
    std::vector<school::Told> out = drawn_.warnings;
    if (const auto w = school::too_little_time(terms().terms, drawn_)) out.insert(out.begin(), *w);
    return out;
}

std::string PackMaker::add(const std::string& path) {
    const auto l = files::load_scenario(*library_, path);
    if (!l.value) return l.problems.empty() ? path : l.problems.front().text();
    lessons_.insert(lessons_.begin(), {path, l.value->scenario.title, true});
    return {};
}

void PackMaker::ask(std::size_t lesson) {
    if (sealed() || lesson >= lessons_.size()) return;
    work_.stop();
    lessons_[lesson].asked = !lessons_[lesson].asked;
    drawn_ = {};  // it was drawn from other lessons
}

void PackMaker::type(PackField f, const std::string& text) {
    if (!sealed()) typed_[static_cast<std::size_t>(f)] = text;
}

std::string PackMaker::draw() {
    if (sealed()) return tr("It is sealed: nothing of it changes any more.");
    if (roster_.pupils.empty()) return tr("There is nobody on the roster.");
    std::vector<std::string> asked;
    for (const PackLesson& l : lessons_)
        if (l.asked) asked.push_back(l.id);
    if (asked.empty()) return tr("Choose what is asked first: one lesson or several.");
    drawn_ = {};
    const std::string why = work_.start([this, asked, pupils = roster_.pupils.size()](Underway& p) {
        return school::draw_jobs(
            asked, pupils,
            [this](const std::string& name, std::uint64_t seed) { return files::load_scenario(*library_, name, seed); },
            school::unguessable_seed,
            [&p](std::size_t tried) {
                p.done = tried;
                return !p.stop;
            });
    });
    return why.empty() ? why : say("It cannot be drawn now: {0}", why);
}

bool PackMaker::ready() {
    const std::size_t tried_now = work_.done();
    auto ended = work_.take();
    if (!ended) return false;
    tried_ = tried_now;
    drawn_ = std::move(ended->result).value_or(school::DrawnJobs{});
    if (!ended->result) drawn_.problems.push_back({place_.out, 1, 1, say("could not be drawn: {0}", ended->failure)});
    return true;
}

std::string PackMaker::seal() {
    if (sealed()) return tr("It is sealed: nothing of it changes any more.");
    if (drawing()) return tr("It is still being drawn.");
    if (!enough()) return tr("There has to be a job for everybody first: D draws.");
    const auto read = terms();
    if (!read.problems.empty()) return tr("Not before opening, closing and time are right.");
    if (const std::string why = files::output_problem(place_.out, files::OutputKind::pack, {place_.key_path}, false);
        !why.empty())
        return say("{0} {1}", place_.out, why);
    try {
        const auto sealed_now = school::seal_class(read.terms, drawn_, roster_, keys_);
        if (!sealed_now) return tr("This machine has not the memory to make the key.");
        if (std::string why =
                school::write_class(*sealed_now, keys_, place_.key_path, place_.out, files::Place::only_if_free);
            !why.empty())
            return why;
        words_ = sealed_now->words;
    } catch (const std::exception& e) {
        return say("It cannot be sealed: {0}", e.what());
    }
    return {};
}

}  // namespace quarterturn::window
