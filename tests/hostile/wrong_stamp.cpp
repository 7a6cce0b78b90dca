// Built against another version of the contract.
#include "harmless.h"

extern "C" __attribute__((visibility("default"), used, section(".casebound")))
const casebound::Manifest casebound_manifest{"CASEBND", "0123456789abcdef another compiler", "wrong_stamp",
                                             &instance_of<Harmless>};
