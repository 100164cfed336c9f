// Work that is done side by side on all cores.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace quarterturn {

//! Calls do_one(i) for each i below count, each once, in any order and side by side. The first exception one of them
//! throws is thrown here, when all have ended; those not begun then are left out.
inline void on_all_cores(std::size_t count, const std::function<void(std::size_t)>& do_one) {
    std::atomic<std::size_t> next{0};
    std::exception_ptr thrown;
    std::mutex guard;
    const auto work = [&] {
        for (std::size_t i = next++; i < count; i = next++) {
            try {
                do_one(i);
            } catch (...) {
                next = count;
                const std::lock_guard lock(guard);
                if (!thrown) thrown = std::current_exception();
            }
        }
    };
    {
        std::vector<std::jthread> others;
        const unsigned cores = std::max(1u, std::thread::hardware_concurrency());
        for (unsigned i = 1; i < cores && i < count; ++i) others.emplace_back(work);
        work();
    }
    if (thrown) std::rethrow_exception(thrown);
}

}  // namespace quarterturn
