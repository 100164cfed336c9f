// One piece of work beside the window: begun, asked to stop, taken in once it has ended. No window needed.
#pragma once

#include <atomic>
#include <cstddef>
#include <exception>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <system_error>
#include <thread>
#include <utility>

namespace quarterturn::window {

//! What the work and whoever waits for it tell one another.
struct Underway {
    std::atomic<bool> stop{false};  //!< it is not wanted any more
    std::atomic<std::size_t> done{0}, all{0};
};

template <class Result>
class Background {
public:
    using Work = std::function<Result(Underway&)>;

    Background() = default;
    Background(const Background&) = delete;
    Background& operator=(const Background&) = delete;
    ~Background() { stop(); }

    //! Begins it; what still runs is stopped and waited for. Empty if it has begun, else the system's reason.
    std::string start(Work work) {
        stop();
        run_ = std::make_unique<Run>();
        try {
            run_->thread = std::thread([run = run_.get(), work = std::move(work)] {
                try {
                    run->result.emplace(work(run->progress));
                } catch (const std::exception& e) {
                    run->failure = e.what();
                }
                run->ended = true;
            });
        } catch (const std::system_error& e) {
            run_.reset();
            return e.what();
        }
        return {};
    }
    void ask_to_stop() {
        if (run_) run_->progress.stop = true;
    }
    //! Asks it to stop and waits; what it would have given is lost.
    void stop() {
        ask_to_stop();
        if (run_) run_->thread.join();
        run_.reset();
    }
    //! Has begun, and has not been taken in.
    bool begun() const { return run_ != nullptr; }
    //! Begun, and still at it.
    bool runs() const { return run_ && !run_->ended; }
    std::size_t done() const { return run_ ? run_->progress.done.load() : 0; }
    std::size_t all() const { return run_ ? run_->progress.all.load() : 0; }

    struct Ended {
        std::optional<Result> result;
        std::string failure;  //!< why there is no result
    };
    //! What came of it, once, when it has ended.
    std::optional<Ended> take() {
        if (!run_ || !run_->ended) return std::nullopt;
        run_->thread.join();
        const auto run = std::exchange(run_, nullptr);
        return Ended{std::move(run->result), std::move(run->failure)};
    }

private:
    struct Run {
        Underway progress;
        std::atomic<bool> ended{false};
        std::optional<Result> result;
        std::string failure;
        std::thread thread;
    };
    std::unique_ptr<Run> run_;
};

}  // namespace quarterturn::window
