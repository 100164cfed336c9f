// What whoever sits here has set, kept in the user's own place from one time to the next. No window needed.
#pragma once

#include <string>
#include <vector>

#include "ui/words/units.hpp"

namespace quarterturn::window {

struct Settings {
    words::Units units = words::Units::si;
    bool evening = false;   //!< the paper's colours
    double text_scale = 1;  //!< 1 to 2
    bool still = false;     //!< no moving flames and fan
    bool slow_down = true;  //!< speed-up slows by itself at what needs eyes
    int volume = 5;         //!< 0 to 10
    bool operator==(const Settings&) const = default;
};

//! Where they are kept: quarterturn/settings.toml of the user's configuration folder. Empty if there is none.
std::string settings_path();
//! What the file says; what is wrong in it is taken as the default and said in problems, one sentence each. A file that
//! is not there is no problem.
Settings read_settings(const std::string& path, std::vector<std::string>& problems);
//! Empty if done, else why not.
std::string write_settings(const std::string& path, const Settings& s);

}  // namespace quarterturn::window
