// The sound device: plays what the synth makes. Without a device it is silent, and nothing else changes.
#pragma once

#include <memory>

#include "ui/window/synth.hpp"

namespace quarterturn::window {

class Sound {
public:
    //! Asks for a device; none is no problem.
    Sound();
    ~Sound();
    Sound(const Sound&) = delete;
    Sound& operator=(const Sound&) = delete;
    bool can_be_heard() const { return stream_ != nullptr; }
    void set(const Sounds& s);
    void tick();

private:
    class Stream;
    std::unique_ptr<Stream> stream_;
};

}  // namespace quarterturn::window
