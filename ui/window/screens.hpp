// All the screens and the way from one to the next: shelf, job card, bench, marks, settings. Owns the attempt.
#pragma once

#include "sim/school/read_class.hpp"
#include "ui/window/background.hpp"
#include "ui/window/bench_screen.hpp"
#include "ui/window/builder_screen.hpp"
#include "ui/window/class_book_screen.hpp"
#include "ui/window/job_card_screen.hpp"
#include "ui/window/marks_screen.hpp"
#include "ui/window/pack_screen.hpp"
#include "ui/window/session.hpp"
#include "ui/window/settings_screen.hpp"
#include "ui/window/shelf_screen.hpp"
#include "ui/window/sign_in_screen.hpp"
#include "ui/window/sound.hpp"
#include "ui/window/what_if_screen.hpp"
#include "ui/window/window.hpp"

namespace quarterturn::window {

//! What is in front: the shelf of lessons, a job card, the bench, its marks, or the settings over any of them.
enum class Front { sign_in, shelf, job_card, bench, marks, what_if, handed_in, builder, class_book, pack };

class Screens {
public:
    Screens(Start start, const Fonts& fonts);
    //! On the bench of a lesson at once.
    Screens(const LoadedScenario& lesson, const Fonts& fonts);

    void resize(unsigned width_px, unsigned height_px);
    void handle(const sf::Event& e);
    //! Moves time on. True if the picture has to be drawn anew.
    bool advance(std::chrono::nanoseconds elapsed);
    void draw(sf::RenderTarget& target);
    bool wants_to_close() const { return close_; }
    //! The window's own close button was pressed. False: what would be lost is said first.
    bool may_close();

    Front front() const { return front_; }
    bool in_settings() const { return in_settings_; }
    Session& session() { return *session_; }
    Hands& hands() { return hands_; }
    const Settings& settings() const { return settings_; }
    const CoursePlan& plan() const { return plan_; }
    ShelfView& shelf() { return shelf_; }
    const SignIn& signing_in() const { return sign_in_; }
    const BookView& book_view() const { return book_view_; }
    const ClassBook& book() const { return book_; }
    const Builder* builder() const { return builder_.get(); }
    const PackMaker* pack_maker() const { return pack_maker_.get(); }
    const PackView& packing() const { return pack_view_; }
    const BuilderView& building() const { return build_; }
    const std::vector<Target>& targets() const { return on_bench() ? bench_->targets() : page_targets_; }
    const Layout& layout() const { return layout_; }
    //! From now on it can be heard, if there is a device.
    void turn_sound_on() { sound_ = std::make_unique<Sound>(); }
    //! Text scale of this time only, as an environment asks for.
    void set_text_scale(double scale);

private:
    bool on_bench() const { return front_ == Front::bench && !in_settings_ && bench_; }
    void go(Front to);
    void go_home();
    void show_shelf();
    // A class: who sits here, and the job of a pack.
    void show_sign_in();
    void sign_in();
    void begin_pack();
    void hand_in();
    void sign_in_key(const sf::Event::KeyEvent& k);
    // The class book.
    void show_book(bool read);
    void read_on();
    files::Replay play_again(const files::Record& r, const std::string& path);
    std::unique_ptr<bench::Attempt> looked_at(const std::string& path);
    void open_record(const std::string& path);
    std::string whose_in_book(const std::string& record) const;
    void compare_records(const std::string& one, const std::string& other);
    void keep_assessment();
    void assess_key(const sf::Event::KeyEvent& k);
    void book_text(std::uint32_t character);
    BookCalls book_calls();
    void book_key(const sf::Event::KeyEvent& k);
    // A sealed assessment being made.
    PackCalls pack_calls();
    void pack_key(const sf::Event::KeyEvent& k);
    void pack_text(std::uint32_t character);
    // The builder.
    void show_builder();
    BuilderCalls builder_calls();
    void builder_key(const sf::Event::KeyEvent& k);
    void builder_text(std::uint32_t character);
    bool commit_typing();
    void to_row(std::size_t row, bool typing);
    void row_in_sight();
    void drop_end();
    void nudge_end(const std::string& path, int by, bool fine);
    void into_sight(const std::string& target);
    AttemptsPlace place() const { return {start_.records, start_.pupil}; }
    void show_job_card();
    void carry_on();
    void last_marks();
    void look_back();
    void show_projector();
    void take_over();
    void open_settings();
    bool look_back_key(const sf::Event::KeyEvent& k);
    void watch();
    //! A new attempt at the lesson of the card.
    void start(bool expert = false);
    void sit_down(std::unique_ptr<Session> session);
    void take(const Settings& s);
    void be_heard();
    void key(const sf::Event::KeyEvent& k);
    bool text_key(const sf::Event::KeyEvent& k);
    void page_key(const sf::Event::KeyEvent& k);
    void shelf_key(const sf::Event::KeyEvent& k);
    void marks_key(const sf::Event::KeyEvent& k);
    bool scroll_key(const sf::Event::KeyEvent& k);
    void show_marks();
    void press(const std::string& name);
    void drag(double x, double y);
    void walk(int by);
    void draw_page(sf::RenderTarget& target);
    ShelfCalls shelf_calls();
    JobCardCalls card_calls();
    WhatIfCalls what_if_calls();
    //! The what-if page, where practice is coached or alone; in an assessment only once it has ended.
    void show_what_if();
    void ask(const Question& q);
    void what_if_key(const sf::Event::KeyEvent& k);

    Start start_;
    const Fonts& fonts_;
    Settings settings_;
    std::string settings_problem_;
    Front front_ = Front::bench;
    bool in_settings_ = false;
    unsigned width_ = 1280, height_ = 800;
    Layout layout_;
    bool close_ = false;
    std::unique_ptr<Sound> sound_;  //!< only where the program runs: tests are silent
    // The pages: shelf, job card, marks, settings.
    std::vector<Target> page_targets_;
    std::string dragged_;  //!< name of the target that is held and can be dragged; empty: none is
    Scroll scroll_;
    bool page_dirty_ = true;
    SignIn sign_in_;
    std::optional<school::PackSeat> seat_;  //!< the job of a pack that is being done
    HandedIn handed_in_;
    ClassBook whole_book_, book_;  //!< of the class, and of the group that is shown
    BookView book_view_;
    struct ReadBook {
        std::vector<school::ClassRow> rows;
        files::Problems problems;  //!< folders that cannot be looked through
    };
    Background<ReadBook> book_reader_;
    std::unique_ptr<PackMaker> pack_maker_;
    PackView pack_view_;
    std::unique_ptr<Builder> builder_;
    BuilderView build_;
    bool trial_ran_ = false;
    static constexpr std::size_t kLongestValue = 4000;
    // The shelf.
    std::vector<bench::LessonCard> lessons_;
    CoursePlan plan_;
    ShelfView shelf_;
    Background<std::vector<OwnAttempt>> reader_;
    JobCard card_;
    std::uint64_t card_seed_ = 1;
    WhatIfView what_if_;
    Front what_if_from_ = Front::job_card;
    // The bench.
    std::unique_ptr<Session> session_;
    Hands hands_;
    std::unique_ptr<BenchScreen> bench_;
    // The marks, once the attempt has ended.
    MarksView marks_;
    std::string heard_notice_;
};

}  // namespace quarterturn::window
