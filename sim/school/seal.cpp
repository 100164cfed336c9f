#include "sim/school/seal.hpp"

#include <cctype>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <sodium.h>
#include <stdexcept>
#include <unistd.h>

#include "sim/files/json_in.hpp"
#include "sim/files/library.hpp"
#include "sim/files/output.hpp"
#include "sim/school/word_list.hpp"

namespace quarterturn::school {

using files::text_in;

namespace {

//! Once in a program, before anything else of libsodium.
void ready() {
    static const int good = sodium_init();
    if (good < 0) throw std::runtime_error("the system gives no random numbers");
}

const unsigned char* bytes(const std::string& s) { return reinterpret_cast<const unsigned char*>(s.data()); }
unsigned char* bytes(std::string& s) { return reinterpret_cast<unsigned char*>(s.data()); }
std::string text_of(const Key& k) { return {reinterpret_cast<const char*>(k.data()), k.size()}; }

std::optional<Key> key_of(const std::string& text) {
    Key k{};
    if (text.size() != k.size()) return std::nullopt;
    std::memcpy(k.data(), text.data(), k.size());
    return k;
}

std::string for_instructor(const Key& key, const Key& instructor_public) {
    std::string out(crypto_box_SEALBYTES + key.size(), '\0');
    crypto_box_seal(bytes(out), key.data(), key.size(), instructor_public.data());
    return out;
}

std::optional<Key> by_instructor(const std::string& box, const KeyPair& keys) {
    Key out{};
    if (box.size() != crypto_box_SEALBYTES + out.size()) return std::nullopt;
    if (crypto_box_seal_open(out.data(), bytes(box), box.size(), keys.public_half.data(), keys.secret_half.data()) != 0)
        return std::nullopt;
    return out;
}

//! What a line is bound to: its place and the first line.
std::string bound_to(const std::string& first_line, std::uint64_t index) {
    std::string hash(crypto_generichash_BYTES, '\0');
    crypto_generichash(bytes(hash), hash.size(), bytes(first_line), first_line.size(), nullptr, 0);
    return hash + fmt::format("{}", index);
}

nlohmann::json head_of(const std::string& first_line) {
    auto j = files::json_from(first_line);
    return j.is_object() && j.contains(files::kSealedMark) ? j : nlohmann::json::object();
}

//! Longer than any line but one with a long remark.
constexpr std::size_t kLineBlock = 384;

//! A line's length tells what it is, the first one's which lesson: filled up with blanks to whole blocks.
std::string filled_up(std::string line, std::uint64_t index) {
    const std::size_t block = index == 0 ? 32768 : kLineBlock;
    line.resize((line.size() / block + 1) * block, ' ');
    return line;
}

class RecordSeal : public files::LineSeal {
public:
    RecordSeal(std::string first, const Key& key) : first_(std::move(first)), key_(key) {}
    ~RecordSeal() override { sodium_memzero(key_.data(), key_.size()); }
    std::string first_line() const override { return first_; }
    std::string sealed(const std::string& line, std::uint64_t index) const override {
        return base64(school::sealed(filled_up(line, index), bound_to(first_, index), key_));
    }

private:
    std::string first_;
    Key key_;
};

//! Opens with whatever finds the record's own key in its first line.
template <class Find>
class RecordOpener : public files::LineOpener {
public:
    RecordOpener(Find find, const char* why) : find_(std::move(find)), why_(why) {}
    ~RecordOpener() override { sodium_memzero(key_.data(), key_.size()); }
    std::string begin(const std::string& first_line) override {
        const auto found = find_(head_of(first_line));
        if (!found) return why_;
        key_ = *found;
        first_ = first_line;
        return {};
    }
    std::optional<std::string> opened(const std::string& line, std::uint64_t index) const override {
        const auto raw = from_base64(line);
        auto plain = raw ? school::opened(*raw, bound_to(first_, index), key_) : std::nullopt;
        if (plain) plain->erase(plain->find_last_not_of(' ') + 1);
        return plain;
    }

private:
    Find find_;
    const char* why_;
    std::string first_;
    Key key_{};
};

std::optional<Key> by_station(const nlohmann::json& head, const Key& station) {
    const auto raw = from_base64(text_in(head, "for_station"));
    const auto key = raw ? opened(*raw, text_in(head, "pack") + "\n" + text_in(head, "pupil"), station) : std::nullopt;
    return key ? key_of(*key) : std::nullopt;
}

}  // namespace

KeyPair new_key_pair() {
    ready();
    KeyPair k;
    crypto_box_keypair(k.public_half.data(), k.secret_half.data());
    return k;
}

const KeyPair::Pack* KeyPair::pack(const std::string& id) const {
    for (const Pack& p : packs)
        if (p.id == id) return &p;
    return nullptr;
}

std::optional<KeyPair> read_key_file(const std::string& path, std::string& reason) {
    ready();
    constexpr std::size_t longest = std::size_t{64} << 20;
    const auto text = files::read_file(path, &reason, longest);
    if (!text) return std::nullopt;
    const auto j = files::json_from(*text);
    reason = "is no key file of this program";
    if (!j.is_object() || j.value("quarterturn_key", nlohmann::json()) != 1) return std::nullopt;
    const auto secret = from_base64(text_in(j, "secret"));
    const auto half = secret ? key_of(*secret) : std::nullopt;
    if (!half) return std::nullopt;
    KeyPair k;
    k.secret_half = *half;
    crypto_scalarmult_base(k.public_half.data(), k.secret_half.data());
    try {
        for (const auto& p : j.value("packs", nlohmann::json::array())) {
            KeyPair::Pack pack{text_in(p, "id"),
                               text_in(p, "title"),
                               key_of(from_base64(text_in(p, "station")).value_or("")).value(),
                               {}};
            for (const auto& job : p.at("jobs"))
                pack.jobs.push_back({job.at("pupil"), job.at("lesson"), job.at("seed")});
            k.packs.push_back(std::move(pack));
        }
    } catch (const std::exception&) {
        reason = "is a key file that was damaged";
        return std::nullopt;
    }
    reason.clear();
    return k;
}

std::string write_key_file(const std::string& path, const KeyPair& keys, bool again) {
    std::string target = again ? path + ".XXXXXX" : path;
    const int file = again ? mkostemp(target.data(), O_CLOEXEC)  // for its owner alone, as it is made
                           : ::open(path.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC | O_NOFOLLOW, 0600);
    if (file < 0) return path + ":1:1: cannot be written: " + std::strerror(errno);
    nlohmann::ordered_json packs = nlohmann::ordered_json::array();
    for (const KeyPair::Pack& p : keys.packs) {
        nlohmann::ordered_json jobs = nlohmann::ordered_json::array();
        for (const auto& job : p.jobs)
            jobs.push_back({{"pupil", job.pupil}, {"lesson", job.lesson}, {"seed", job.seed}});
        packs.push_back({{"id", p.id}, {"title", p.title}, {"station", base64(text_of(p.station))}, {"jobs", jobs}});
    }
    const std::string text =
        nlohmann::ordered_json{{"quarterturn_key", 1},
                               {"note", "secret: whoever has it can open the records that were sealed for it"},
                               {"public", base64(text_of(keys.public_half))},
                               {"secret", base64(text_of(keys.secret_half))},
                               {"packs", packs}}
            .dump(1) +
        "\n";
    bool good = files::write_all(file, text);
    if (good && again) good = std::rename(target.c_str(), path.c_str()) == 0;
    const std::string why = good ? "" : path + ":1:1: cannot be written: " + std::strerror(errno);
    ::close(file);
    if (!good) ::unlink(target.c_str());
    return why;
}

namespace {

//! A key for seals of this instructor's own, from the secret half.
Key own_key(const KeyPair& keys) {
    Key out{};
    constexpr char purpose[] = "an assessor's word";
    crypto_generichash(out.data(), out.size(), reinterpret_cast<const unsigned char*>(purpose), sizeof purpose - 1,
                       keys.secret_half.data(), keys.secret_half.size());
    return out;
}

}  // namespace

std::string seal_of(const KeyPair& keys, const std::string& text) {
    ready();
    std::string mac(crypto_auth_BYTES, '\0');
    crypto_auth(bytes(mac), bytes(text), text.size(), own_key(keys).data());
    return base64(mac);
}

bool is_sealed_by(const KeyPair& keys, const std::string& text, const std::string& seal) {
    ready();
    const auto mac = from_base64(seal);
    return mac && mac->size() == crypto_auth_BYTES &&
           crypto_auth_verify(bytes(*mac), bytes(text), text.size(), own_key(keys).data()) == 0;
}

std::string new_words() {
    ready();
    std::string out;
    for (int i = 0; i < 5; ++i)
        out +=
            (i ? " " : "") + std::string(kWordList[randombytes_uniform(static_cast<std::uint32_t>(kWordList.size()))]);
    return out;
}

std::optional<Key> key_from_words(const std::string& words, const std::string& salt) {
    ready();
    if (salt.size() != crypto_pwhash_SALTBYTES) return std::nullopt;
    std::string plain;
    for (const char c : words)
        if (std::isalpha(static_cast<unsigned char>(c)))
            plain += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    Key k{};
    constexpr std::size_t memory = std::size_t{64} << 20;
    constexpr unsigned long long passes = 4;
    if (crypto_pwhash(k.data(), k.size(), plain.data(), plain.size(), bytes(salt), passes, memory,
                      crypto_pwhash_ALG_ARGON2ID13) != 0)
        return std::nullopt;
    return k;
}

std::string random_bytes(std::size_t count) {
    ready();
    std::string out(count, '\0');
    randombytes_buf(out.data(), out.size());
    return out;
}

std::uint32_t random_below(std::uint32_t limit) {
    ready();
    return randombytes_uniform(limit);
}

std::string base64(const std::string& raw) {
    std::string out(sodium_base64_ENCODED_LEN(raw.size(), sodium_base64_VARIANT_ORIGINAL), '\0');
    sodium_bin2base64(out.data(), out.size(), bytes(raw), raw.size(), sodium_base64_VARIANT_ORIGINAL);
    out.pop_back();  // its own end of text
    return out;
}

std::optional<std::string> from_base64(const std::string& text) {
    std::string out(text.size(), '\0');
    std::size_t length = 0;
    if (sodium_base642bin(bytes(out), out.size(), text.data(), text.size(), nullptr, &length, nullptr,
                          sodium_base64_VARIANT_ORIGINAL) != 0)
        return std::nullopt;
    out.resize(length);
    return out;
}

std::string sealed(const std::string& text, const std::string& with, const Key& key) {
    std::string out = random_bytes(crypto_aead_xchacha20poly1305_ietf_NPUBBYTES);
    const std::string nonce = out;
    std::string box(text.size() + crypto_aead_xchacha20poly1305_ietf_ABYTES, '\0');
    crypto_aead_xchacha20poly1305_ietf_encrypt(bytes(box), nullptr, bytes(text), text.size(), bytes(with), with.size(),
                                               nullptr, bytes(nonce), key.data());
    return out + box;
}

std::optional<std::string> opened(const std::string& raw, const std::string& with, const Key& key) {
    ready();
    constexpr std::size_t nonce = crypto_aead_xchacha20poly1305_ietf_NPUBBYTES;
    constexpr std::size_t tag = crypto_aead_xchacha20poly1305_ietf_ABYTES;
    if (raw.size() < nonce + tag) return std::nullopt;
    std::string out(raw.size() - nonce - tag, '\0');
    if (crypto_aead_xchacha20poly1305_ietf_decrypt(bytes(out), nullptr, nullptr, bytes(raw) + nonce, raw.size() - nonce,
                                                   bytes(with), with.size(), bytes(raw), key.data()) != 0)
        return std::nullopt;
    return out;
}

std::shared_ptr<const files::LineSeal> new_record_seal(const std::string& pack, const std::string& pupil,
                                                       const Key& instructor_public, const Key& station) {
    const auto own = key_of(random_bytes(sizeof(Key)));
    const nlohmann::ordered_json head{{files::kSealedMark, 1},
                                      {"pack", pack},
                                      {"pupil", pupil},
                                      {"for_instructor", base64(for_instructor(*own, instructor_public))},
                                      {"for_station", base64(sealed(text_of(*own), pack + "\n" + pupil, station))}};
    return std::make_shared<RecordSeal>(head.dump(), *own);
}

std::unique_ptr<files::LineOpener> record_opener(const KeyPair& instructor) {
    ready();
    const auto find = [instructor](const nlohmann::json& head) -> std::optional<Key> {
        const auto box = from_base64(text_in(head, "for_instructor"));
        return box ? by_instructor(*box, instructor) : std::nullopt;
    };
    return std::make_unique<RecordOpener<decltype(find)>>(find, "is sealed for another instructor's key");
}

std::unique_ptr<files::LineOpener> record_opener(const Key& station) {
    ready();
    const auto find = [station](const nlohmann::json& head) { return by_station(head, station); };
    return std::make_unique<RecordOpener<decltype(find)>>(find, "is sealed, and these words do not open it");
}

std::shared_ptr<const files::LineSeal> same_record_seal(const std::string& first_line, const Key& station) {
    ready();
    const auto key = by_station(head_of(first_line), station);
    return key ? std::make_shared<RecordSeal>(first_line, *key) : nullptr;
}

bool made_with_words(const std::string& first_line, const KeyPair& keys, const KeyPair::Pack& pack) {
    ready();
    const auto head = head_of(first_line);
    const auto box = from_base64(text_in(head, "for_instructor"));
    const auto mine = box ? by_instructor(*box, keys) : std::nullopt;
    const auto theirs = by_station(head, pack.station);
    return mine && theirs && *mine == *theirs;
}

std::optional<SealedHead> sealed_head(const std::string& first_line) {
    const auto j = head_of(first_line);
    if (j.empty()) return std::nullopt;
    return SealedHead{text_in(j, "pack"), text_in(j, "pupil")};
}

}  // namespace quarterturn::school
