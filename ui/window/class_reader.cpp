#include "ui/window/class_reader.hpp"

namespace quarterturn::window {

ClassReader::~ClassReader() {
    if (thread_.joinable()) thread_.join();
}

void ClassReader::start(std::vector<std::string> places, std::optional<school::KeyPair> keys,
                        std::shared_ptr<const files::Library> library) {
    if (thread_.joinable()) thread_.join();
    ended_ = false;
    done_ = all_ = 0;
    thread_ = std::thread([this, places = std::move(places), keys = std::move(keys), library = std::move(library)] {
        files::Problems ignored;
        const auto records = school::records_in(places, ignored);
        all_ = records.size();
        rows_ =
            school::read_class(records, [this](std::size_t n) { done_ = n; }, {keys ? &*keys : nullptr, library.get()});
        ended_ = true;
    });
}

bool ClassReader::ready() {
    if (!ended_.exchange(false)) return false;
    thread_.join();
    return true;
}

}  // namespace quarterturn::window
