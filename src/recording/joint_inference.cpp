#include <jointrom/recording/joint_inference.hpp>

#include "words.hpp"

#include <algorithm>
#include <filesystem>
#include <initializer_list>
#include <optional>
#include <set>
#include <string_view>
#include <vector>

namespace jointrom {
namespace {

struct Meaning {
    std::string_view name;
    std::initializer_list<std::string_view> patterns;
};

// Everyday and trade words of English, German, French, Spanish, Italian, Portuguese, Dutch, Swedish and Polish, from
// memory.
const std::initializer_list<Meaning> joints{
    {"ankle",
     {"ankle*", "sprunggelenk*", "knochel*", "cheville*", "tobillo*", "caviglia*", "tornozelo*", "enkel*", "fotled*",
      "kostka*", "talocrural*"}},
    {"elbow",
     {"elbow*", "ellbogen*", "ellenbogen*", "coude*", "codo", "gomito*", "cotovelo*", "elleboog*", "armbage*",
      "lokiec*"}},
    {"forearm", {"forearm*", "unterarm*", "*pronat*", "*supinat*"}},
    {"hip", {"hip", "hips", "hufte*", "hueft*", "hanche*", "cadera*", "anca", "quadril*", "heup*", "hoft*", "biodro*"}},
    {"knee", {"knee*", "knie*", "genou*", "rodilla*", "ginocchio*", "joelho*", "kna", "knavinkel*", "kolano*"}},
    {"neck",
     {"neck*", "cervical*", "nacken*", "hws", "cou", "cuello*", "collo", "pescoco*", "nek", "nacke*", "szyja*"}},
    {"shoulder", {"shoulder*", "schulter*", "epaule*", "hombro*", "spalla*", "ombro*", "schouder*", "glenohumeral*"}},
    {"trunk", {"trunk*", "lumbar*", "thoracolumbar*", "spine*", "rumpf*", "lws", "tronc", "tronco*", "romp"}},
    {"wrist", {"wrist*", "handgelenk*", "poignet*", "muneca*", "polso*", "punho*", "pols", "handled*", "nadgarstek*"}}};

const std::initializer_list<Meaning> sides{{"left",
                                            {"left*", "links*", "linke*", "gauche*", "izquierd*", "sinistr*",
                                             "esquerd*", "vanster*", "lewy", "lewa", "lewe", "lt", "l", "izq"}},
                                           {"right",
                                            {"right*", "rechts*", "rechte*", "droit", "droite*", "derech*", "destr*",
                                             "direit*", "hoger*", "prawy", "prawa", "prawe", "rt", "r"}}};

/// The text without single letters that are no words: "R2" may be the second rater, "l'angle" is an article.
std::string without_labels(std::string_view text) {
    const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
    std::string result(text);
    for (std::size_t i = 0; i + 1 < text.size(); ++i) {
        const char next = text[i + 1];
        const bool is_label = (next >= '0' && next <= '9') || next == '\'' || next == '\xE2';
        if (is_letter(text[i]) && is_label && (i == 0 || !is_letter(text[i - 1]))) {
            result[i] = ' ';
        }
    }
    return result;
}

/// The one meaning that the words of a text have.
std::optional<std::string_view> meaning_of(std::string_view text, std::initializer_list<Meaning> meanings) {
    const std::vector<std::string> words = words_of(without_labels(text));
    std::set<std::string_view> found;
    for (const Meaning& meaning : meanings) {
        if (any_fits(words, meaning.patterns)) {
            found.insert(meaning.name);
        }
    }
    return found.size() == 1 ? std::optional(*found.begin()) : std::nullopt;
}

struct Text {
    std::string what;  ///< names the text in a sentence
    std::string words;
};

std::vector<Text> texts_of(const Recording& recording) {
    std::vector<Text> texts;
    if (recording.angle) {
        const std::string& name = recording.channels[*recording.angle].name;
        texts.push_back({"the heading '" + name + "'", name});
    }
    const TableDescription& table = recording.table;
    if (table.block_used < table.blocks.size() && !table.blocks[table.block_used].label.empty()) {
        const std::string& label = table.blocks[table.block_used].label;
        texts.push_back({"the trial's label '" + label + "'", label});
    }
    std::string preamble;
    for (const std::string& line : table.preamble) {
        preamble += line + '\n';
    }
    texts.push_back({"the lines above the table", preamble});
    const std::string file = std::filesystem::path(recording.source).filename().string();
    texts.push_back({"the file name '" + file + "'", std::filesystem::path(file).stem().string()});
    return texts;
}

void infer(const std::vector<Text>& texts, std::initializer_list<Meaning> meanings, std::string& name,
           std::string& where, std::string& contradiction) {
    for (const Text& text : texts) {
        const auto found = meaning_of(text.words, meanings);
        if (found && name.empty()) {
            name = *found;
            where = text.what;
        } else if (found && *found != name) {
            contradiction += (contradiction.empty() ? "" : "; ") + where + " says " + name + ", " + text.what +
                             " says " + std::string(*found);
            name.clear();
            where.clear();
            return;
        }
    }
}

}  // namespace

Inferred infer_joint_and_side(const Recording& recording) {
    const std::vector<Text> texts = texts_of(recording);
    Inferred inferred;
    infer(texts, joints, inferred.joint, inferred.joint_where, inferred.contradiction);
    infer(texts, sides, inferred.side, inferred.side_where, inferred.contradiction);
    return inferred;
}

}  // namespace jointrom
