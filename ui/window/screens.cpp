#include "ui/window/screens.hpp"

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <utility>

#include "sim/files/record.hpp"

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
    c.room_m3 = s.site.room_m3;
    c.gas_sinks = s.gas.relative_density() > 1;
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
    builder_ = std::move(start_.builder);
    pack_maker_ = std::move(start_.pack_maker);
    if (builder_)
        show_builder();
    else if (pack_maker_)
        go(Front::pack);
    else if (!start_.book.empty())
        show_book(true);
    else if (start_.projector && start_.attempt)
        show_projector();
    else if (start_.attempt)
        sit_down(std::make_unique<Session>(*start_.lesson, std::move(start_.attempt), std::move(start_.writer),
                                           start_.record_path, start_.no_record));
    else if (start_.lesson)
        show_job_card();
    else if (start_.roster || start_.pack)
        show_sign_in();
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
    scroll_ = {};
    hands_.focus.clear();
    page_dirty_ = true;
    resize(width_, height_);
}

//! Where one came from: a class's list, the builder, the class book, or the shelf.
void Screens::go_home() {
    if (seat_) return show_sign_in();
    if (builder_) return show_builder();
    if (!start_.book.empty()) return show_book(false);
    start_.library ? show_shelf() : void(close_ = true);
}

void Screens::show_shelf() {
    if (start_.library && lessons_.empty())
        for (const std::string& name : start_.library->names(files::FileKind::lesson))
            if (auto s = files::load_scenario(*start_.library, name); s.value)
                lessons_.push_back(s.value->scenario.card());
    plan_ = plan_course(lessons_, {});
    std::string reason;
    shelf_.reading = true;
    (void)reader_.start(
        [folder = attempts_folder(place(), reason)](Underway& p) { return read_attempts(folder, p.stop); });
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
    card_.sealed = seat_.has_value();
    // An aim is written for whoever learns from a lesson: in an assessment it would tell what to look for.
    if (card_.sealed) card_.aim.clear();
    if (seat_ && seat_->pack.terms().minutes > 0)
        card_.minutes = card_.time_limit = static_cast<double>(seat_->pack.terms().minutes);
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
    go(Front::bench);
}

void Screens::start(bool expert) {
    if (seat_) return begin_pack();
    if (front_ != Front::job_card) {  // again, or straight to the bench
        card_seed_ = start_.seed.value_or(seed_of_the_day());
        start_.seed.reset();
        if (start_.again)
            if (auto drawn = start_.again(card_seed_); drawn.value) start_.lesson = *std::move(drawn.value);
    }
    std::string reason;
    const std::string path = expert ? std::string() : new_record_path(place(), start_.lesson->scenario.id, reason);
    const std::string elsewhere = path.empty() ? std::string() : std::exchange(reason, {});
    auto session = std::make_unique<Session>(*start_.lesson, card_seed_, path, reason, start_.pupil);
    if (expert) {
        session->watch_expert();
        session->set_speed(5);
    } else if (card_.help == Help::alone && start_.lesson->scenario.coached && front_ == Front::job_card) {
        session->practise_alone();
    }
    sit_down(std::move(session));
    if (!elsewhere.empty()) session_->say(elsewhere);
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
    if (auto read = front_ == Front::shelf ? reader_.take() : std::nullopt) {
        const std::size_t was = shelf_.chosen;
        plan_ = plan_course(lessons_, std::move(read->result).value_or(std::vector<OwnAttempt>{}));
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
    if (front_ == Front::class_book) read_on();
    if (front_ == Front::pack && (pack_maker_->ready() || pack_maker_->drawing())) page_dirty_ = true;
    if (front_ == Front::builder && (builder_->trial().runs() || trial_ran_)) {
        // What is being found out in the background comes into the picture, and its end.
        page_dirty_ = true;
        trial_ran_ = builder_->trial().runs();
    }
    if (front_ != Front::bench) return std::exchange(page_dirty_, false);
    // Time stands still while the settings lie over the bench, but in an assessment.
    const bool waits = in_settings_ && session_->attempt().bench().scenario().coached;
    const bool second = waits ? false : session_->advance(elapsed);
    if (std::exchange(hands_.to_shelf, false)) {
        go_home();
        return true;
    }
    if (std::exchange(hands_.settings, false)) open_settings();
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
        if (std::exchange(hands_.what_if, false)) show_what_if();
    } else if (session_->ended()) {
        if (seat_) {
            hand_in();
            return true;
        }
        show_marks();
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

bool Screens::may_close() {
    if (front_ == Front::pack) {
        pack_calls().leave();
        page_dirty_ = true;
    } else if (front_ == Front::builder) {
        builder_calls().leave();
        page_dirty_ = true;
    } else {
        close_ = true;
    }
    return close_;
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
    Page p{canvas, layout_, page_targets_, scroll_};
    if (in_settings_) {
        settings_screen(
            p, settings_, settings_problem_,
            [this](const Settings& s) {
                take(s);
                settings_problem_ = write_settings(settings_path(), s);
            },
            [this] {
                in_settings_ = false;
                scroll_ = {};
                resize(width_, height_);
            });
    } else if (front_ == Front::sign_in) {
        sign_in_screen(p, sign_in_,
                       {[this] { sign_in(); }, [this] { in_settings_ = true; }, [this] { close_ = true; }});
    } else if (front_ == Front::class_book) {
        class_book_screen(p, book_, book_view_, book_calls());
    } else if (front_ == Front::pack) {
        pack_screen(p, *pack_maker_, pack_view_, pack_calls());
    } else if (front_ == Front::builder) {
        builder_screen(p, *builder_, build_, builder_calls());
    } else if (front_ == Front::handed_in) {
        handed_in_screen(
            p, handed_in_, [this] { show_sign_in(); }, [this] { close_ = true; });
    } else if (front_ == Front::shelf) {
        shelf_screen(p, plan_, shelf_, shelf_calls());
    } else if (front_ == Front::job_card) {
        job_card_screen(p, card_, card_calls());
    } else if (front_ == Front::what_if) {
        what_if_screen(p, start_.lesson->scenario.papers(), what_if_, what_if_calls());
    } else {
        marks_screen(p, marks_,
                     {[this] { start(); }, [this] { look_back(); }, [this] { go_home(); },
                      [this](std::int64_t step) {
                          look_back();
                          session_->seek(step);
                      }});
    }
    canvas.layer();
    for (const Target& t : page_targets_)
        if (t.name == hands_.focus && !t.out_of_sight) focus_marks(canvas, t.r);
    canvas.flush(target);
}

}  // namespace quarterturn::window
