#include <jointrom/figure/figure_style.hpp>

namespace jointrom {
namespace {

constexpr const char* sheet = R"(.jointrom-figure .paper{fill:#fff}
.jointrom-figure .plot{fill:#fafbfc}
.jointrom-figure text{fill:#1d2733}
.jointrom-figure .title{font-size:1.13em;font-weight:600}
.jointrom-figure .small{font-size:.87em}
.jointrom-figure .soft{fill:#525d69}
.jointrom-figure .strong{font-weight:600}
.jointrom-figure .halo{paint-order:stroke;stroke:#fff;stroke-width:3px;stroke-linejoin:round}
.jointrom-figure .grid{stroke:#dfe4e9;stroke-width:1}
.jointrom-figure .axis{stroke:#8a94a0;stroke-width:1}
.jointrom-figure .zero{stroke:#525d69;stroke-width:1.2}
.jointrom-figure .line{fill:none;stroke-width:2;stroke-linejoin:round;stroke-linecap:round}
.jointrom-figure .thin{stroke-width:1;stroke-opacity:.55}
.jointrom-figure .dash{stroke-dasharray:8 4;stroke-linecap:butt}
.jointrom-figure .dot{stroke-dasharray:2 4}
.jointrom-figure .ink{stroke:#1d2733}
.jointrom-figure .line1{stroke:#1b5aa0}
.jointrom-figure .line2{stroke:#bb5a12}
.jointrom-figure .line3{stroke:#2f9c86}
.jointrom-figure .line4{stroke:#4d1236}
.jointrom-figure .mark{stroke:#fff;stroke-width:1}
.jointrom-figure .mark0{fill:#525d69}
.jointrom-figure .mark1{fill:#1b5aa0}
.jointrom-figure .mark2{fill:#bb5a12}
.jointrom-figure .mark3{fill:#2f9c86}
.jointrom-figure .mark4{fill:#4d1236}
.jointrom-figure .ink-mark{fill:#1d2733}
.jointrom-figure .band{stroke:none;fill-opacity:.2}
.jointrom-figure .band0{fill:#76808c}
.jointrom-figure .band1{fill:#1b5aa0}
.jointrom-figure .band2{fill:#bb5a12}
.jointrom-figure .band3{fill:#2f9c86}
.jointrom-figure .band4{fill:#4d1236}
.jointrom-figure .raising{fill:#1b5aa0;fill-opacity:.12}
.jointrom-figure .holding{fill:#4d3d6b;fill-opacity:.15}
.jointrom-figure .lowering{fill:#bb5a12;fill-opacity:.12}
@media screen and (prefers-color-scheme:dark){
.jointrom-figure .paper{fill:#12171d}
.jointrom-figure .plot{fill:#171d24}
.jointrom-figure text{fill:#e6ebf0}
.jointrom-figure .soft{fill:#a4afba}
.jointrom-figure .halo{stroke:#12171d}
.jointrom-figure .grid{stroke:#2a323b}
.jointrom-figure .axis{stroke:#66717d}
.jointrom-figure .zero{stroke:#a4afba}
.jointrom-figure .ink{stroke:#e6ebf0}
.jointrom-figure .line1{stroke:#7db4f2}
.jointrom-figure .line2{stroke:#f0a25c}
.jointrom-figure .line3{stroke:#5fe0c6}
.jointrom-figure .line4{stroke:#b06cf5}
.jointrom-figure .mark{stroke:#12171d}
.jointrom-figure .mark0{fill:#a4afba}
.jointrom-figure .mark1{fill:#7db4f2}
.jointrom-figure .mark2{fill:#f0a25c}
.jointrom-figure .mark3{fill:#5fe0c6}
.jointrom-figure .mark4{fill:#b06cf5}
.jointrom-figure .ink-mark{fill:#e6ebf0}
.jointrom-figure .band{fill-opacity:.28}
.jointrom-figure .band0{fill:#a4afba}
.jointrom-figure .band1{fill:#7db4f2}
.jointrom-figure .band2{fill:#f0a25c}
.jointrom-figure .band3{fill:#5fe0c6}
.jointrom-figure .band4{fill:#b06cf5}
.jointrom-figure .raising{fill:#7db4f2;fill-opacity:.16}
.jointrom-figure .holding{fill:#b7a3dd;fill-opacity:.2}
.jointrom-figure .lowering{fill:#f0a25c;fill-opacity:.17}
}
)";

}  // namespace

const std::string& figure_style_sheet() {
    static const std::string text = sheet;
    return text;
}

}  // namespace jointrom
