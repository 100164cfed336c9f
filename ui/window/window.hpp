// The window: opens on the shelf of lessons, on one lesson, or on an attempt, and plays until it is closed.
#pragma once

#include <functional>
#include <memory>

#include "sim/files/record_writer.hpp"
#include "sim/school/pack_seat.hpp"
#include "sim/school/roster.hpp"
#include "ui/window/look_back.hpp"
#include "ui/words/units.hpp"

namespace quarterturn::window {

//! Asks the display itself: an unreachable one would abort the program inside SFML.
bool display_can_be_opened();

class Builder;
class PackMaker;

using bench::Attempt;
using files::Loaded;
using files::LoadedScenario;
using files::RecordWriter;

//! The lesson drawn again with another seed, for trying again.
using Reload = std::function<Loaded<LoadedScenario>(std::uint64_t seed)>;

//! What the window opens on: the shelf, a lesson, or an attempt at one that was broken off.
struct Start {
    std::optional<LoadedScenario> lesson{};           //!< empty: the shelf
    std::shared_ptr<const files::Library> library{};  //!< for the shelf; empty: there is none to go back to
    std::string pupil{};                              //!< identity for the records; empty: nobody signed in
    std::optional<words::Units> units{};              //!< asked for on the command line
    Reload again;
    std::unique_ptr<Attempt> attempt;  //!< empty: a new one
    std::unique_ptr<RecordWriter> writer;
    std::string record_path;
    std::string no_record;                    //!< why the attempt that is gone on with is not written down any more
    std::optional<std::uint64_t> seed{};      //!< of the first attempt; empty: drawn
    std::optional<school::Roster> roster{};   //!< who may sign in; empty: nobody is asked
    std::optional<school::Pack> pack{};       //!< a sealed assessment instead of lessons
    std::string words{};                      //!< that open it, where they were given on the command line
    std::unique_ptr<Builder> builder{};       //!< a lesson's file to be written
    std::unique_ptr<PackMaker> pack_maker{};  //!< a sealed assessment to be made
    std::string book{};                       //!< folder of a class's records, for the class book
    std::optional<school::KeyPair> keys{};    //!< the instructor's, for sealed records in it
    bool projector = false;                   //!< the attempt is shown to a class
    std::optional<PlayedActions> other{};     //!< beside another of the same lesson and seed
    std::string records{};                    //!< folder for the attempts; empty: the user's own place
};

//! Returns the exit code.
int run(Start start);

}  // namespace quarterturn::window
