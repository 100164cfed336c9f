// Who sits here: the list of the class, what was typed, who that is. No window needed.
#pragma once

#include <string>
#include <vector>

#include "sim/school/pack_terms.hpp"
#include "sim/school/roster.hpp"

namespace quarterturn::window {

//! What is typed into on the sign-in page.
enum class SignInField { list, words };

struct SignIn {
    std::vector<school::Pupil> pupils;
    bool has_pack = false;
    school::PackTerms pack;  //!< with a pack: what anybody may read of it
    SignInField field = SignInField::list;
    std::string typed;       //!< number, name or identity
    std::string words;       //!< that open the pack
    std::size_t chosen = 0;  //!< of pupils
    bool is_chosen = false;  //!< somebody has been pointed at: nobody is by default
    std::size_t top = 0;     //!< first row in sight
    std::size_t rows = 1;    //!< set when drawn
    std::string message;     //!< what stands in the way

    //! Somebody is chosen, and with a pack something was typed for the words.
    bool ready() const { return is_chosen && (!has_pack || !words.empty()); }
};

//! Those of a roster; of a pack those it has a job for, by the roster's names.
SignIn sign_in_of(const school::Roster& roster, const school::PackTerms* pack);
//! Types a character; 8 takes the last one back. The list follows what is typed: a number, or how a name begins.
void type_in(SignIn& s, std::uint32_t character);
//! The next or the one before, and into sight.
void move_in(SignIn& s, int by);

}  // namespace quarterturn::window
