// A sealed assessment being made: which lessons, for whom, when; drawn in the background, then sealed. No window
// needed.
#pragma once

#include <array>
#include <memory>
#include <string>
#include <vector>

#include "sim/school/hand_out.hpp"
#include "ui/window/background.hpp"

namespace quarterturn::window {

//! A lesson that may be asked.
struct PackLesson {
    std::string id, title;
    bool asked = false;
};

//! What is typed into the form.
enum class PackField { title, minutes, opens, closes };
inline constexpr std::size_t kPackFields = 4;

//! Where the pack and the instructor's key go.
struct PackPlace {
    std::string out, key_path;
};

class PackMaker {
public:
    PackMaker(std::shared_ptr<const files::Library> library, school::Roster roster, school::KeyPair keys,
              PackPlace place);
    PackMaker(const PackMaker&) = delete;
    PackMaker& operator=(const PackMaker&) = delete;

    const std::vector<PackLesson>& lessons() const { return lessons_; }
    const school::Roster& roster() const { return roster_; }
    const PackPlace& place() const { return place_; }
    const std::string& typed(PackField f) const { return typed_[static_cast<std::size_t>(f)]; }
    //! What is wrong with a field; empty: nothing.
    std::string problem(PackField f) const;

    //! A lesson of one's own, by its path; it is asked. Empty if it is one, else what is wrong with it.
    std::string add(const std::string& path);
    //! Once it is sealed nothing of it changes any more.
    void ask(std::size_t lesson);
    void type(PackField f, const std::string& text);

    //! Draws anew, in the background. Empty if it began, else why not.
    std::string draw();
    bool drawing() const { return work_.begun(); }
    std::size_t tried() const { return drawing() ? work_.done() : tried_; }
    //! Takes in what was drawn; true once, when it has ended.
    bool ready();
    //! What was drawn; nothing before, and nothing after another lesson was chosen.
    const school::DrawnJobs& drawn() const { return drawn_; }
    //! What is to be looked at before it is sealed, with the terms as they are typed now.
    std::vector<school::Told> warnings() const;
    bool enough() const { return !drawn_.jobs.empty() && drawn_.jobs.size() == roster_.pupils.size(); }

    //! Seals it and writes key and pack. Empty if done, else why not: then neither is there, and it can be tried again.
    std::string seal();
    bool sealed() const { return !words_.empty(); }
    //! The words that open it, kept nowhere else; empty before it is sealed.
    const std::string& words() const { return words_; }

private:
    school::TermsRead terms() const;

    std::shared_ptr<const files::Library> library_;
    school::Roster roster_;
    school::KeyPair keys_;
    PackPlace place_;
    std::vector<PackLesson> lessons_;
    std::array<std::string, kPackFields> typed_;
    school::DrawnJobs drawn_;
    std::string words_;

    Background<school::DrawnJobs> work_;
    std::size_t tried_ = 0;  //!< once it has ended
};

}  // namespace quarterturn::window
