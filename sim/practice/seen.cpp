#include "sim/practice/seen.hpp"

namespace quarterturn::practice {

const Finding* Seen::found(Sense by) const {
    for (auto f = findings.rbegin(); f != findings.rend(); ++f)
        if (sense_of(f->by) == by) return &*f;
    return nullptr;
}

bool Seen::has_noticed(Sign s) const {
    return std::any_of(noticed.begin(), noticed.end(), [s](const Noticed& n) { return n.sign == s; });
}

}  // namespace quarterturn::practice
