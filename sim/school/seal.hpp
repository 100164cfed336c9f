// Sealing with libsodium: XChaCha20-Poly1305 for what is sealed, Argon2id from spoken words to a key, a sealed box for
// the instructor's key pair. docs/packs.md says what it protects and what not.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/files/line_seal.hpp"

namespace quarterturn::school {

using Key = std::array<unsigned char, 32>;

//! An instructor's key pair. Whoever has the secret half can open what was sealed for the public one.
struct KeyPair {
    Key public_half{}, secret_half{};
    //! A pack that was sealed with it, as its instructor remembers it: what its records are held against.
    struct Pack {
        std::string id, title;  //!< the title may be empty
        Key station{};
        struct Job {
            std::string pupil, lesson;
            std::uint64_t seed = 0;
        };
        std::vector<Job> jobs;
    };
    std::vector<Pack> packs{};
    const Pack* pack(const std::string& id) const;
};
KeyPair new_key_pair();
//! Reads a key file; empty with a reason if it is none.
std::optional<KeyPair> read_key_file(const std::string& path, std::string& reason);
//! Writes one that only its owner may read; empty if done, else the reason. again: in the place of the one that is
//! there, with the packs that were sealed since; otherwise nothing is written over.
std::string write_key_file(const std::string& path, const KeyPair& keys, bool again = false);

//! A seal that only this key makes, over a text; and whether one is.
std::string seal_of(const KeyPair& keys, const std::string& text);
bool is_sealed_by(const KeyPair& keys, const std::string& text, const std::string& seal);

//! Five words out of 256, to be said in the room.
std::string new_words();
//! A key from words and a salt of 16 bytes. Slow on purpose, some tenths of a second; upper and lower case and blanks
//! do not matter. nullopt if there is not the memory for it.
std::optional<Key> key_from_words(const std::string& words, const std::string& salt);

std::string random_bytes(std::size_t count);
//! A number from the system, each as likely.
std::uint32_t random_below(std::uint32_t limit);
std::string base64(const std::string& bytes);
//! nullopt if it is no base64.
std::optional<std::string> from_base64(const std::string& text);

//! Sealed under a key; with is bound to it and stays readable.
std::string sealed(const std::string& text, const std::string& with, const Key& key);
//! nullopt if the key is another, or text or with were changed.
std::optional<std::string> opened(const std::string& bytes, const std::string& with, const Key& key);

//! The seal of one new record: for the instructor, and for the station that goes on with it.
std::shared_ptr<const files::LineSeal> new_record_seal(const std::string& pack, const std::string& pupil,
                                                       const Key& instructor_public, const Key& station);
//! What opens records: with the instructor's key pair, or with the station's key.
std::unique_ptr<files::LineOpener> record_opener(const KeyPair& instructor);
std::unique_ptr<files::LineOpener> record_opener(const Key& station);
//! The seal a station goes on with in a record it has begun; its first line is that one's. nullptr if the key is
//! another.
std::shared_ptr<const files::LineSeal> same_record_seal(const std::string& first_line, const Key& station);

//! Was the record with this first line made at a station that had the words of this pack? Anybody may seal for an
//! instructor; only who had the words seals for the station as well.
bool made_with_words(const std::string& first_line, const KeyPair& keys, const KeyPair::Pack& pack);

//! What the first line of a sealed record says to anybody.
struct SealedHead {
    std::string pack, pupil;
};
std::optional<SealedHead> sealed_head(const std::string& first_line);

}  // namespace quarterturn::school
