#include "ui/window/sound.hpp"

#include <SFML/Audio/SoundStream.hpp>
#include <array>
#include <dlfcn.h>
#include <mutex>

namespace quarterturn::window {

namespace {

//! A stream without a device floods the error output and claims to play: so the sound library is asked first.
bool device_there() {
    void* al = dlopen("libopenal.so.1", RTLD_LAZY);
    if (!al) return false;
    using Open = void* (*)(const char*);
    using Close = char (*)(void*);
    const auto open = reinterpret_cast<Open>(dlsym(al, "alcOpenDevice"));
    const auto close = reinterpret_cast<Close>(dlsym(al, "alcCloseDevice"));
    void* device = open ? open(nullptr) : nullptr;
    if (device && close) close(device);
    return device != nullptr;
}

}  // namespace

class Sound::Stream : public sf::SoundStream {
public:
    Stream() { initialize(1, Synth::kRate); }
    ~Stream() override { stop(); }
    void set(const Sounds& s) {
        const std::lock_guard lock(guard_);
        wanted_ = s;
    }
    void tick() {
        const std::lock_guard lock(guard_);
        synth_.tick();
    }

private:
    bool onGetData(Chunk& data) override {
        const std::lock_guard lock(guard_);
        synth_.render(wanted_, samples_);
        data.samples = samples_.data();
        data.sampleCount = samples_.size();
        return true;
    }
    void onSeek(sf::Time) override {}

    std::mutex guard_;
    Synth synth_;
    Sounds wanted_;
    std::array<std::int16_t, 1024> samples_{};
};

Sound::Sound() {
    if (!device_there()) return;
    stream_ = std::make_unique<Stream>();
    stream_->play();
}

Sound::~Sound() = default;

void Sound::set(const Sounds& s) {
    if (stream_) stream_->set(s);
}

void Sound::tick() {
    if (stream_) stream_->tick();
}

}  // namespace quarterturn::window
