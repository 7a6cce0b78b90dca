// Its manifest leads to no domain.
#include "harmless.h"

extern "C" __attribute__((visibility("default"), used, section(".casebound")))
const casebound::Manifest casebound_manifest{"CASEBND", CASEBOUND_STAMP, "no_instance", nullptr};
