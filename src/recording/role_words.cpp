#include "role_words.hpp"

#include "words.hpp"

namespace jointrom {

// Everyday and trade words of English, German, French, Spanish, Italian, Portuguese, Dutch and Swedish, and the usual
// abbreviations of muscles, from memory.
Naming naming_of(std::string_view heading) {
    const auto words = words_of(heading);
    if (any_fits(words,
                 {"*veloc*",     "*speed*", "*geschwind*", "vitesse*", "velocidad*", "snelheid*",    "*accel*",
                  "*beschleun*", "acc",     "gyro*",       "mag",      "*torque*",   "*moment*",     "*drehmoment*",
                  "force*",      "*kraft",  "fuerza*",     "forza",    "*pressure*", "*druck",       "*power*",
                  "*batter*",    "temp",    "*temperat*",  "event*",   "digital*",   "marker*",      "trigger*",
                  "sync*",       "status*", "error*",      "quality*", "heart*",     "*uncertainty*"})) {
        return Naming::something_else;
    }
    if (any_fits(words, {"*angle*", "*angulo*", "*angolo*", "*winkel*", "*vinkel*", "hoek*", "*hoek", "*gonio*",
                         "elgon", "angular*", "potentiom*", "inclinom*", "encoder*", "rom"})) {
        return Naming::angle;
    }
    if (any_fits(words, {"index*", "sample*", "frame*", "row", "rows", "no", "nr", "num", "number", "count", "counter",
                         "packet*", "seq*", "zeile*", "muestra*", "echantillon*", "campione*"})) {
        return Naming::counter;
    }
    if (any_fits(words, {"*emg*",     "*myo*",      "*muscle*",    "muskel*",    "*musculo*",  "muscolo*",  "spier*",
                         "*bicep*",   "*bizep*",    "*tricep*",    "*trizep*",   "brachi*",    "*deltoid*", "*quadric*",
                         "*quadriz*", "quads",      "*hamstring*", "hams",       "femor*",     "vast*",     "rect*",
                         "*gastroc*", "*soleus*",   "tibialis*",   "*semitend*", "*semimem*",  "glut*",     "trapez*",
                         "pector*",   "latissimus", "erector*",    "flexor*",    "*extensor*", "carpi",     "*agonist*",
                         "mvc",       "rf",         "vl",          "vm",         "vmo",        "bf",        "st",
                         "sm",        "ta",         "gm",          "gl",         "gas",        "sol",       "bb",
                         "tb",        "brd",        "ecr",         "ecu",        "fcr",        "fcu",       "edc",
                         "fds"})) {
        return Naming::muscle;
    }
    if (any_fits(words,
                 {"flex",   "*flexion*",  "flexo",       "*flessione*",  "*flexao*",    "*beugung*",   "flx",
                  "fx",     "ext",        "*extension*", "*estensione*", "*streckung*", "*abduct*",    "*adduct*",
                  "abd",    "*rotation*", "*pronat*",    "*supinat*",    "*deviation*", "*inversion*", "*eversion*",
                  "valgus", "varus",      "pitch",       "roll",         "yaw",         "tilt*",       "inclin*",
                  "*bend*", "theta",      "phi"})) {
        return Naming::motion;
    }
    if (any_fits(words, {"ankle*",     "elbow*",     "knee*",     "hip",      "shoulder*", "wrist*",      "neck",
                         "trunk",      "forearm*",   "*joint*",   "*gelenk*", "ellbogen*", "ellenbogen*", "knie*",
                         "hufte*",     "schulter*",  "coude*",    "genou*",   "cheville*", "hanche*",     "epaule*",
                         "poignet*",   "codo",       "rodilla*",  "tobillo*", "cadera*",   "hombro*",     "muneca*",
                         "gomito*",    "ginocchio*", "caviglia*", "spalla*",  "polso*",    "cotovelo*",   "joelho*",
                         "tornozelo*", "ombro*",     "punho*"})) {
        return Naming::joint;
    }
    return Naming::nothing;
}

}  // namespace jointrom
