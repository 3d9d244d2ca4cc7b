#include <jointrom/report/page_parts.hpp>

#include <algorithm>
#include <array>
#include <cassert>

namespace jointrom {
namespace {

struct Word {
    std::string_view word;
    std::string_view meaning;
};

constexpr auto words_known = std::to_array<Word>({
    {"0°", "The neutral posture of the joint, such as the straight arm. Every angle is counted from it."},
    {"±", "How sure a value is. As far as sensor, zero and noise are known, the true value lies no farther than this "
          "from the "
          "measured one in 95 of 100 such measurements."},
    {"arc", "The whole way of the joint, from one end of the movement to the other."},
    {"held", "The farthest angle at which the joint was kept still for a while, not only passed."},
    {"repetition", "One movement away from rest and back again."},
    {"raising, lowering", "The two ways of the joint: raising is toward the direction named first (an elbow: flexion), "
                          "lowering is back. The "
                          "words say nothing about up and down in space."},
    {"holding, rest", "The joint is still: away from where the movement starts, or there."},
    {"SD", "Standard deviation: how far single values usually lie from their mean."},
    {"mean", "The sum of the values divided by how many there are."},
    {"95 % interval of the mean",
     "The mean of very many people like these lies in such an interval in 95 of 100 classes. It says nothing about a "
     "single person."},
    {"median", "The value in the middle when all are put in order: half of them lie below."},
    {"outlier", "A value far from the median of its group. Look at the recording before you believe it or drop it."},
    {"EMG", "Electromyogram: the voltage that a working muscle makes on the skin."},
    {"activity",
     "Size of the EMG: larger when the muscle works harder. Compare muscles or people only in percent of a greatest "
     "voluntary contraction (MVC), because the voltage depends on skin and electrodes too."},
    {"mover, antagonist", "The muscle that moves the joint this way, and the one that would move it back."},
    {"co-contraction", "Both muscles work at the same time, which stiffens the joint."},
    {"normal range",
     "What 95 of 100 healthy people of the same sex and age reach. One of 20 healthy people lies outside."},
    {"cannot tell", "The value is so near a limit that its ± reaches across it."},
    {"finding",
     "Something that you should know about a result. A note says what was assumed, a warning that a number may be off, "
     "an error that a number could not be given."},
});

}  // namespace

Markup glossary(std::initializer_list<std::string_view> words) {
    Markup content;
    for (const std::string_view word : words) {
        const auto known = std::ranges::find(words_known, word, &Word::word);
        assert(known != words_known.end());
        content += element("dt", known->word) + element("dd", known->meaning);
    }
    return element("dl", {{"class", "words"}}, content);
}

}  // namespace jointrom
