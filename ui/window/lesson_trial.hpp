// How a lesson does that is still being written: played in the background while one goes on writing. No window needed.
#pragma once

#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "sim/files/load.hpp"
#include "sim/marking/learners.hpp"
#include "ui/window/background.hpp"

namespace quarterturn::window {

//! Something the expert did, for the line of time.
struct ExpertDid {
    double minute = 0;
    practice::Verb verb{};
};
//! When a fault first showed itself to him.
struct FaultShown {
    faults::FaultId fault{};
    double minute = 0;
};

//! What has been found out so far.
struct TrialResult {
    int seeds = 0, passed = 0;             //!< played by the expert so far, and passed
    double least = 100;                    //!< points, of those
    double shortest = 0, longest = 0;      //!< minutes the expert takes
    std::string failure;                   //!< how the first failure failed
    int learners = 0;                      //!< played so far
    double able = 0, weak = 0;             //!< mean points of the abler and the weaker half
    std::vector<std::string> poor_passed;  //!< poor players who pass
    //! The expert's first run: which fire from when on [min], what he did, when faults showed themselves, its end.
    std::vector<std::pair<double, heater::Fire>> fires;
    std::vector<ExpertDid> did;
    std::vector<FaultShown> shown;
    double end = 0;
    bool ended = false;
    bool of_before = false;  //!< of the text as it was before the last change: the new one is only being begun
};

//! Plays a text's lesson: twenty seeds by the expert, the poor players, forty learners.
class LessonTrial {
public:
    LessonTrial() = default;
    //! Begins anew; what was still being played ends by itself and is waited for by nobody.
    void start(std::shared_ptr<const files::Library> library, std::string path);
    void stop();
    bool runs() const { return now_ && now_->work.runs(); }
    TrialResult result() const;
    static constexpr int kSeeds = 20, kLearners = 40;

private:
    struct Shared {
        std::mutex guard;
        TrialResult result;
    };
    struct Run {
        std::shared_ptr<Shared> shared = std::make_shared<Shared>();
        Background<bool> work;
    };
    static bool play(Underway& progress, Shared& shared, const files::Library& library, const std::string& path);
    std::unique_ptr<Run> now_;
    TrialResult last_;                          //!< of the run before this one
    std::vector<std::unique_ptr<Run>> before_;  //!< asked to stop, and perhaps still ending
};

}  // namespace quarterturn::window
