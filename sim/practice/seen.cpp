#include "sim/practice/seen.hpp"

namespace quarterturn::practice {

const char* key_of(Outcome o) {
    switch (o) {
        case Outcome::none: return "none";
        case Outcome::left_in_service: return "left_in_service";
        case Outcome::made_safe: return "made_safe";
    }
    return "";
}

const Finding* Seen::found(Sense by) const {
    for (auto f = findings.rbegin(); f != findings.rend(); ++f)
        if (sense_of(f->by) == by) return &*f;
    return nullptr;
}

bool Seen::has_noticed(Sign s) const {
    return std::any_of(noticed.begin(), noticed.end(), [s](const Noticed& n) { return n.sign == s; });
}

}  // namespace quarterturn::practice
