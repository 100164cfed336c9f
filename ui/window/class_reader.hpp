// Reads the records of a class in the background. No window needed.
#pragma once

#include <atomic>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "sim/school/read_class.hpp"

namespace quarterturn::window {

class ClassReader {
public:
    ClassReader() = default;
    ClassReader(const ClassReader&) = delete;
    ClassReader& operator=(const ClassReader&) = delete;
    ~ClassReader();
    void start(std::vector<std::string> places, std::optional<school::KeyPair> keys,
               std::shared_ptr<const files::Library> library);
    bool ready();  //!< true once, when it has ended
    std::vector<school::ClassRow> take() { return std::move(rows_); }
    std::size_t done() const { return done_; }
    std::size_t all() const { return all_; }

private:
    std::thread thread_;
    std::atomic<bool> ended_{false};
    std::atomic<std::size_t> done_{0}, all_{0};
    std::vector<school::ClassRow> rows_;
};

}  // namespace quarterturn::window
