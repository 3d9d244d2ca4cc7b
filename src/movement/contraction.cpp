#include <jointrom/movement/contraction.hpp>

namespace jointrom {

std::string_view name_of(Contraction contraction) {
    switch (contraction) {
    case Contraction::concentric:
        return "concentric";
    case Contraction::isometric:
        return "isometric";
    case Contraction::eccentric:
        return "eccentric";
    case Contraction::mixed:
        return "mixed";
    case Contraction::undecided:
        break;
    }
    return {};
}

}  // namespace jointrom
