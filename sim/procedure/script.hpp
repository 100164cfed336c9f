// A player's course of action written down as it is done, top to bottom: a coroutine that gives one action, or the wish
// to wait a second, each time it is asked. Scripts call scripts with co_await.
#pragma once

#include <coroutine>
#include <cstdlib>
#include <optional>
#include <utility>

#include "sim/practice/action.hpp"

namespace quarterturn::procedure {

using practice::Action;

//! Where a player's innermost script stands, and what it wants done now.
struct Stand {
    std::coroutine_handle<> leaf;
    std::optional<Action> wanted;
};

class Script {
public:
    struct promise_type {
        std::coroutine_handle<> caller;
        Script get_return_object() { return Script(std::coroutine_handle<promise_type>::from_promise(*this)); }
        std::suspend_always initial_suspend() noexcept { return {}; }
        struct Final {
            bool await_ready() noexcept { return false; }
            std::coroutine_handle<> await_suspend(std::coroutine_handle<promise_type> h) noexcept {
                if (h.promise().caller) return h.promise().caller;
                return std::noop_coroutine();
            }
            void await_resume() noexcept {}
        };
        Final final_suspend() noexcept { return {}; }
        void return_void() {}
        void unhandled_exception() { std::abort(); }
    };

    Script() = default;
    explicit Script(std::coroutine_handle<promise_type> h) : handle_(h) {}
    Script(Script&& other) noexcept : handle_(std::exchange(other.handle_, {})) {}
    Script& operator=(Script&& other) noexcept {
        if (this != &other) {
            if (handle_) handle_.destroy();
            handle_ = std::exchange(other.handle_, {});
        }
        return *this;
    }
    Script(const Script&) = delete;
    Script& operator=(const Script&) = delete;
    ~Script() {
        if (handle_) handle_.destroy();
    }

    bool done() const { return !handle_ || handle_.done(); }
    std::coroutine_handle<> handle() const { return handle_; }

    // co_await another script: it runs until its end, then the caller goes on.
    bool await_ready() const { return done(); }
    std::coroutine_handle<> await_suspend(std::coroutine_handle<> caller) {
        handle_.promise().caller = caller;
        return handle_;
    }
    void await_resume() {}

private:
    std::coroutine_handle<promise_type> handle_;
};

//! co_await Ask{...}: gives the action (or none: a second passes) and suspends the whole chain until asked again.
struct Ask {
    Stand& stand;
    std::optional<Action> action;
    bool await_ready() const { return false; }
    void await_suspend(std::coroutine_handle<> h) {
        stand.leaf = h;
        stand.wanted = action;
    }
    void await_resume() {}
};

}  // namespace quarterturn::procedure
