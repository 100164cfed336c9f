#include "ui/window/screens.hpp"

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <utility>

#include "sim/files/record.hpp"
#include "ui/report/truth.hpp"

namespace quarterturn::window {

namespace {

std::uint64_t seed_of_the_day() {
    if (const char* fixed = std::getenv("QUARTERTURN_SEED")) return std::strtoull(fixed, nullptr, 10);
    return static_cast<std::uint64_t>(std::time(nullptr));
}

//! What a visitor sees of the place: nothing that has to be found out.
std::string site_words(const bench::Scenario& s) {
    using words::Quantity;
    return say(
        "{0} outside, {1} above the sea, a room of {2}", words::with_unit(Quantity::temperature_c, s.site.air_temp_c),
        words::with_unit(Quantity::length_m, s.site.altitude_m), words::with_unit(Quantity::volume_m3, s.site.room_m3));
}

std::string weight_words(const bench::Weights& w) {
    std::vector<std::string> out;
    for (std::size_t i = 0; i < bench::kCompetencyCount; ++i)
        if (w.of[i] > 0)
            out.push_back(say("{0} {1}", words::name(static_cast<bench::Competency>(i)), words::fixed(w.of[i])));
    return say("Points: {0}.", words::listed(out));
}

JobCard card_of(const bench::Scenario& s) {
    JobCard c;
    c.papers = s.papers();
    c.aim = s.course.aim;
    c.minutes = s.course.minutes;
    c.clock_s = s.start_clock_s;
    c.site = site_words(s);
    c.weights = weight_words(s.weights);
    c.least_pct = s.least_pct;
    return c;
}

}  // namespace

Screens::Screens(Start start, const Fonts& fonts) : start_(std::move(start)), fonts_(fonts) {
    std::vector<std::string> problems;
    settings_ = read_settings(settings_path(), problems);
    if (!problems.empty()) settings_problem_ = problems.front();
    if (start_.units) settings_.units = *start_.units;
    take(settings_);
    if (start_.attempt)
        sit_down(std::make_unique<Session>(*start_.lesson, std::move(start_.attempt), std::move(start_.writer),
                                           start_.record_path, start_.no_record));
    else if (start_.lesson)
        show_job_card();
    else
        show_shelf();
    resize(width_, height_);
}

Screens::Screens(const LoadedScenario& lesson, const Fonts& fonts) : fonts_(fonts) {
    start_.lesson = lesson;
    hands_.text_scale = settings_.text_scale;
    this->start();
}

void Screens::go(Front to) {
    front_ = to;
    hands_.focus.clear();
    page_dirty_ = true;
    resize(width_, height_);
}

void Screens::show_shelf() {
    if (start_.library && lessons_.empty())
        for (const std::string& name : start_.library->names(files::FileKind::lesson))
            if (auto s = files::load_scenario(*start_.library, name); s.value)
                lessons_.push_back(s.value->scenario.card());
    plan_ = plan_course(lessons_, {});
    std::string reason;
    shelf_.reading = true;
    reader_.start(attempts_folder(reason));
    bench_.reset();
    session_.reset();
    go(Front::shelf);
}

void Screens::show_job_card() {
    card_seed_ = start_.seed.value_or(seed_of_the_day());
    start_.seed.reset();  // the next one is drawn anew
    if (start_.again)
        if (auto drawn = start_.again(card_seed_); drawn.value) start_.lesson = *std::move(drawn.value);
    const Help help = card_.help;
    card_ = card_of(start_.lesson->scenario);
    card_.help = help;
    go(Front::job_card);
}

void Screens::sit_down(std::unique_ptr<Session> session) {
    session_ = std::move(session);
    session_->slow_down(settings_.slow_down);
    Hands fresh;
    fresh.evening = hands_.evening;
    fresh.text_scale = hands_.text_scale;
    fresh.still = settings_.still;
    hands_ = std::move(fresh);
    bench_ = std::make_unique<BenchScreen>(*session_, hands_, fonts_);
    first_rule_ = 0;
    go(Front::bench);
}

void Screens::start(bool expert) {
    if (front_ != Front::job_card) {  // again, or straight to the bench
        card_seed_ = start_.seed.value_or(seed_of_the_day());
        start_.seed.reset();
        if (start_.again)
            if (auto drawn = start_.again(card_seed_); drawn.value) start_.lesson = *std::move(drawn.value);
    }
    std::string reason;
    const std::string path = expert ? std::string() : new_record_path(start_.lesson->scenario.id, reason);
    auto session = std::make_unique<Session>(*start_.lesson, card_seed_, path, reason, start_.pupil);
    if (expert) {
        session->watch_expert();
        session->set_speed(5);
    } else if (card_.help == Help::alone && start_.lesson->scenario.coached && front_ == Front::job_card) {
        session->practise_alone();
    }
    sit_down(std::move(session));
}

void Screens::take(const Settings& s) {
    settings_ = s;
    words::use(s.units);
    hands_.evening = s.evening;
    hands_.text_scale = s.text_scale;
    hands_.still = s.still;
    if (session_) session_->slow_down(s.slow_down);
    resize(width_, height_);
}

void Screens::set_text_scale(double scale) {
    hands_.text_scale = settings_.text_scale = scale;
    resize(width_, height_);
}

void Screens::resize(unsigned w, unsigned h) {
    width_ = std::max(320u, w);
    height_ = std::max(240u, h);
    layout_ = lay_out(width_, height_, hands_.text_scale, hands_.page);
    if (bench_) bench_->resize(width_, height_);
    page_dirty_ = true;
}

bool Screens::advance(std::chrono::nanoseconds elapsed) {
    be_heard();
    if (front_ == Front::shelf && reader_.ready()) {
        const std::size_t was = shelf_.chosen;
        plan_ = plan_course(lessons_, reader_.take());
        shelf_.reading = false;
        if (!shelf_.was_moved && plan_.next) {
            shelf_.chosen = 0;
            move_choice(plan_, shelf_, static_cast<int>(*plan_.next));
            shelf_.was_moved = false;
        } else {
            shelf_.chosen = was;
        }
        page_dirty_ = true;
    }
    if (front_ != Front::bench) return std::exchange(page_dirty_, false);
    // Time stands still while the settings lie over the bench, but in an assessment.
    const bool waits = in_settings_ && session_->attempt().bench().scenario().coached;
    const bool second = waits ? false : session_->advance(elapsed);
    if (session_->look_back()) {
        if (std::exchange(hands_.to_marks, false)) {
            if (session_->look_back()->expert) session_->swap_courses();
            session_->set_speed(0);
            session_->seek(session_->look_back()->end);
            go(Front::marks);
            page_dirty_ = false;
            return true;
        }
        if (std::exchange(hands_.take_over, false)) take_over();
    } else if (session_->ended()) {
        if (session_->watching()) {
            show_shelf();
            return true;
        }
        marks_ = marking::mark(session_->attempt());
        truth_ = report::what_was_true(session_->attempt());
        hands_.sheet = Sheet::none;
        hands_.part.reset();
        go(Front::marks);
        page_dirty_ = false;
        return true;
    }
    if (in_settings_) return std::exchange(page_dirty_, false);
    layout_ = bench_->layout();
    return bench_->advance(elapsed, second);
}

//! What the bench sounds like now; nothing while it stands still.
void Screens::be_heard() {
    if (!sound_) return;
    const bool runs = front_ == Front::bench && session_ && session_->speed() > 0 && !in_settings_;
    if (!runs) return sound_->set(Sounds{});
    const Seen& r = session_->seen();
    sound_->set(sounds_of(r, session_->papers().fan_rpm_high, settings_.volume));
    if (settings_.volume > 0 && session_->notice() != heard_notice_ && !session_->notice().empty()) sound_->tick();
    heard_notice_ = session_->notice();
}

void Screens::draw(sf::RenderTarget& target) {
    if (on_bench())
        bench_->draw(target);
    else
        draw_page(target);
}

void Screens::draw_page(sf::RenderTarget& target) {
    const Palette& colours = hands_.evening ? evening() : day();
    Canvas canvas(fonts_, colours);
    layout_ = lay_out(width_, height_, hands_.text_scale, hands_.page);
    canvas.set_scale(layout_.u);
    page_targets_.clear();
    target.clear(colours.paper);
    Page p{canvas, layout_, page_targets_};
    if (in_settings_) {
        settings_screen(
            p, settings_, settings_problem_,
            [this](const Settings& s) {
                take(s);
                settings_problem_ = write_settings(settings_path(), s);
            },
            [this] {
                in_settings_ = false;
                resize(width_, height_);
            });
    } else if (front_ == Front::shelf) {
        shelf_screen(p, plan_, shelf_, shelf_calls());
    } else if (front_ == Front::job_card) {
        job_card_screen(p, card_, card_calls());
    } else if (front_ == Front::what_if) {
        what_if_screen(p, start_.lesson->scenario.papers(), what_if_, what_if_calls());
    } else {
        Frame f{canvas, layout_, *session_, hands_, page_targets_, session_->seen()};
        rules_shown_ = marks_screen(f, marks_, truth_, first_rule_,
                                    {[this] { start(); }, [this] { look_back(); },
                                     [this] { start_.library ? show_shelf() : void(close_ = true); },
                                     [this](std::int64_t step) {
                                         look_back();
                                         session_->seek(step);
                                     }});
    }
    canvas.layer();
    for (const Target& t : page_targets_)
        if (t.name == hands_.focus) focus_marks(canvas, t.r);
    canvas.flush(target);
}

void Screens::press(const std::string& name) {
    for (const Target& t : page_targets_)
        if (t.name == name) {
            const auto call = t.press;  // the list may be rebuilt by what it does
            page_dirty_ = true;
            return call();
        }
}

void Screens::walk(int by) {
    if (page_targets_.empty()) return;
    const int n = static_cast<int>(page_targets_.size());
    int at = by > 0 ? -1 : n;
    for (int i = 0; i < n; ++i)
        if (page_targets_[static_cast<std::size_t>(i)].name == hands_.focus) at = i;
    hands_.focus = page_targets_[static_cast<std::size_t>((at + by + n) % n)].name;
    page_dirty_ = true;
}

void Screens::handle(const sf::Event& e) {
    if (e.type == sf::Event::Resized) return resize(e.size.width, e.size.height);
    if (e.type == sf::Event::KeyPressed) return key(e.key);
    if (e.type == sf::Event::MouseWheelScrolled && front_ == Front::shelf && !in_settings_) {
        const auto rows = shelf_rows(plan_, shelf_).size();
        const auto most = rows > shelf_.rows ? rows - shelf_.rows : 0;
        if (e.mouseWheelScroll.delta > 0)
            shelf_.top -= std::min<std::size_t>(shelf_.top, 2);
        else
            shelf_.top = std::min(most, shelf_.top + 2);
        page_dirty_ = true;
        return;
    }
    if (e.type != sf::Event::MouseButtonPressed || e.mouseButton.button != sf::Mouse::Left) return;
    const double x = e.mouseButton.x / layout_.u;
    const double y = e.mouseButton.y / layout_.u;
    if (on_bench()) return bench_->mouse(x, y);
    hands_.focus.clear();
    page_dirty_ = true;
    std::string hit;
    for (const Target& t : page_targets_)
        if (t.r.contains(x, y)) hit = t.name;
    if (!hit.empty()) press(hit);
}

//! Text scale, as everywhere else.
bool Screens::text_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (!k.control || k.code == Key::Z) return false;
    Settings s = settings_;
    s.text_scale = hands_.text_scale;
    if (k.code == Key::Equal || k.code == Key::Add) s.text_scale = std::min(2.0, s.text_scale + 0.25);
    if (k.code == Key::Hyphen || k.code == Key::Subtract) s.text_scale = std::max(1.0, s.text_scale - 0.25);
    if (k.code == Key::Num0) s.text_scale = 1.0;
    if (s.text_scale != hands_.text_scale) take(s);
    return true;
}

void Screens::key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (text_key(k)) return;
    if (k.code == Key::F1) {
        in_settings_ = !in_settings_;
        hands_.focus.clear();
        resize(width_, height_);
        return;
    }
    if (k.code == Key::F7) {
        Settings s = settings_;
        s.evening = !hands_.evening;
        return take(s);
    }
    if (on_bench()) {
        if (k.code == Key::Escape && session_->watching()) return show_shelf();
        if (session_->look_back() && look_back_key(k)) return;
        // Time stands while one asks: the page lies over the bench.
        if (k.code == Key::V && hands_.sheet == Sheet::none) return show_what_if();
        return bench_->key(k);
    }
    page_key(k);
}

void Screens::page_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    page_dirty_ = true;
    if (k.code == Key::Tab) return walk(k.shift ? -1 : 1);
    if ((k.code == Key::Enter || k.code == Key::Space) && !hands_.focus.empty()) return press(hands_.focus);
    if (k.code == Key::Escape || k.code == Key::Backspace) {
        if (in_settings_) return press("back");
        if (front_ == Front::job_card || front_ == Front::what_if) return press("back");
    }
    if (in_settings_) return;
    if (front_ == Front::shelf) return shelf_key(k);
    if (front_ == Front::what_if) return what_if_key(k);
    if (front_ == Front::job_card && k.code == Key::Enter) return press("start");
    if (front_ == Front::job_card && k.code == Key::V) return show_what_if();
    if (front_ == Front::marks) marks_key(k);
}

void Screens::marks_key(const sf::Event::KeyEvent& k) {
    using Key = sf::Keyboard::Key;
    if (k.code == Key::Escape || k.code == Key::Backspace) return press("quit");
    if (k.code == Key::T) return start();
    if (k.code == Key::L) return look_back();
    const std::size_t page = std::max<std::size_t>(1, rules_shown_);
    if (k.code == Key::Down && first_rule_ + rules_shown_ < marks_.rules.size()) first_rule_ += page;
    if (k.code == Key::Up) first_rule_ = first_rule_ > page ? first_rule_ - page : 0;
}

}  // namespace quarterturn::window
