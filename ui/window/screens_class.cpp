// A class at this station: signing in, the job of a pack, handing it in.
#include <ctime>

#include "ui/window/screens.hpp"

namespace quarterturn::window {

namespace {

//! Why the pack cannot be played now; empty if it can.
std::string closed_words(const school::PackTerms& terms) {
    const auto why = school::closed_because(terms, std::time(nullptr));
    return why ? words::say(*why) : std::string();
}

}  // namespace

void Screens::show_sign_in() {
    const school::PackTerms* pack = start_.pack ? &start_.pack->terms : nullptr;
    const std::string asked = std::exchange(start_.pupil, {});
    sign_in_ = sign_in_of(start_.roster ? *start_.roster : school::Roster{}, pack);
    sign_in_.words = start_.words;
    seat_.reset();
    bench_.reset();
    session_.reset();
    // Who was named on the command line is chosen already.
    for (std::size_t i = 0; !asked.empty() && front_ == Front::bench && i < sign_in_.pupils.size(); ++i)
        if (sign_in_.pupils[i].identity == asked) {
            sign_in_.chosen = i;
            sign_in_.is_chosen = true;
        }
    if (pack) sign_in_.message = closed_words(*pack);
    go(Front::sign_in);
}

void Screens::sign_in() {
    page_dirty_ = true;
    if (!sign_in_.is_chosen) {
        sign_in_.message = tr("Choose your name first.");
        return;
    }
    const school::Pupil pupil = sign_in_.pupils[sign_in_.chosen];
    if (!start_.pack) {
        start_.pupil = pupil.identity;
        shelf_ = {};
        shelf_.signed_in = pupil.name;
        return show_shelf();
    }
    sign_in_.message = closed_words(start_.pack->terms);
    if (!sign_in_.message.empty()) return;
    if (sign_in_.words.empty()) {
        sign_in_.field = SignInField::words;
        sign_in_.message = tr("Type the words as they are said in the room.");
        return;
    }
    std::string reason;
    start_.pupil = pupil.identity;
    const std::string folder = made_folder(place(), reason);
    school::Told shut;
    auto seat =
        folder.empty() ? std::nullopt : school::take_seat(*start_.pack, sign_in_.words, pupil.identity, folder, shut);
    if (!seat) {
        start_.pupil.clear();
        sign_in_.message = folder.empty() ? reason : words::say(shut);
        return;
    }
    start_.lesson = seat->job.lesson;
    start_.again = nullptr;
    start_.seed = seat->job.seed;
    handed_in_ = {start_.pack->terms.title, pupil.name, seat->record, {}};
    seat_ = std::move(seat);
    if (seat_->begun) return begin_pack();
    show_job_card();
}

//! The job of the pack, from its beginning or from where it was broken off.
void Screens::begin_pack() {
    auto attempt = seat_->attempt();
    files::NoRecord why;
    auto writer = seat_->writer(why, files::local_time_now());
    auto session =
        std::make_unique<Session>(seat_->job.lesson, std::move(attempt), std::move(writer), seat_->record, why.why);
    session->practise_alone();
    session->ends_at(seat_->last_step(), seat_->pack.terms().closes);
    sit_down(std::move(session));
}

void Screens::hand_in() {
    handed_in_.why = session_->time_is_up() ? tr("The time is over: the job is handed in as it stands.")
                                            : tr("You have ended the job, and it is handed in.");
    seat_.reset();
    bench_.reset();
    session_.reset();
    go(Front::handed_in);
}

void Screens::sign_in_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (k.code == Key::Tab) {
        walk(k.shift ? -1 : 1);
        if (hands_.focus == "field list") sign_in_.field = SignInField::list;
        if (hands_.focus == "field words") sign_in_.field = SignInField::words;
        return;
    }
    if (k.code == Key::Enter) {
        // On what has the keyboard, if that is something else to press.
        if (!hands_.focus.empty() && !hands_.focus.starts_with("field")) return press(hands_.focus);
        if (sign_in_.has_pack && sign_in_.is_chosen && sign_in_.field == SignInField::list && sign_in_.words.empty()) {
            sign_in_.field = SignInField::words;
            return;
        }
        return sign_in();
    }
    if (k.code == Key::Escape) return press("quit");
    if (k.code == Key::Down) return move_in(sign_in_, 1);
    if (k.code == Key::Up) return move_in(sign_in_, -1);
    if (k.code == Key::PageDown || k.code == Key::PageUp) scroll_key(k);
}

}  // namespace quarterturn::window
