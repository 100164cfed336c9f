// A lesson's file being written: its keys as rows, what is wrong with it, what follows from it, whether it can be done.
// No window needed.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/files/keys.hpp"
#include "sim/files/load.hpp"
#include "sim/marking/lesson_facts.hpp"
#include "ui/window/lesson_trial.hpp"

namespace quarterturn::window {

//! One key, or the head of a table.
struct BuilderRow {
    std::string path;                        //!< "fault[0].severity"; of a head "fault[0]"
    const files::KeyAbout* about = nullptr;  //!< of a head that of the table
    bool head = false;
    std::string written;  //!< its value as it stands in the file; empty: left out
    std::string problem;  //!< what is wrong with it
    //! What it can be given, where there is a list: words of a choice, faults, shipped files.
    std::vector<std::string> words{};
};

class Builder {
public:
    //! Opens a lesson's file, or begins one that is not there yet. Empty, with the reason, if it cannot be read.
    static std::unique_ptr<Builder> open(const std::string& path, std::shared_ptr<const files::Library> library,
                                         std::string& reason);

    const std::string& path() const { return path_; }
    const std::string& text() const { return text_; }
    const std::vector<BuilderRow>& rows() const { return rows_; }
    const files::Problems& problems() const { return problems_; }
    //! What the file says, if it can be read as a lesson; after a slip what it said before.
    const std::optional<files::LoadedScenario>& lesson() const { return lesson_; }
    const std::optional<marking::LessonFacts>& facts() const { return facts_; }
    bool changed() const { return text_ != saved_; }
    const LessonTrial& trial() const { return trial_; }

    //! Sets a key from what was typed: a text need not be quoted. Empty if done, else why not.
    std::string set(const std::string& path, const std::string& typed);
    std::string leave_out(const std::string& path);
    std::string add_fault();
    //! The table with all its keys: "fault[1]", "answer".
    std::string remove(const std::string& path);
    //! The last change taken back.
    void undo();
    //! Empty if done, else why not.
    std::string save();
    //! What stands in a field to be typed over: a text without its quotes.
    static std::string to_type(const BuilderRow& row);

private:
    Builder(std::string path, std::string text, std::shared_ptr<const files::Library> library);
    std::string take(std::string text, const std::string& problem);
    std::vector<std::string> words_of(const std::string& path, const files::KeyAbout& key) const;
    void look();  //!< reads the text anew: rows, problems, facts; starts the trial

    std::string path_, text_, saved_;
    std::vector<std::string> before_;
    std::shared_ptr<const files::Library> disk_;
    std::vector<BuilderRow> rows_;
    files::Problems problems_;
    std::optional<files::LoadedScenario> lesson_;
    std::optional<marking::LessonFacts> facts_;
    LessonTrial trial_;
};

}  // namespace quarterturn::window
