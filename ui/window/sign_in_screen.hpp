// The sign-in page: the class, a field to type into, and with a pack what it is and its words.
#pragma once

#include "ui/window/page.hpp"
#include "ui/window/sign_in.hpp"

namespace quarterturn::window {

struct SignInCalls {
    std::function<void()> begin;  //!< as whoever is chosen
    std::function<void()> settings, quit;
};
void sign_in_screen(Page& p, SignIn& s, const SignInCalls& calls);

//! After a job of a pack: what happens now.
struct HandedIn {
    std::string title, name, record;
    std::string why;  //!< how it ended: by the pupil, by its time
};
void handed_in_screen(Page& p, const HandedIn& h, const std::function<void()>& next, const std::function<void()>& quit);

}  // namespace quarterturn::window
