// Built against another version of the contract.
#undef CASEBOUND_STAMP
#define CASEBOUND_STAMP "0123456789abcdef another compiler"
#include "harmless.h"

CASEBOUND_MANIFEST("wrong_stamp", instance_of<Harmless>)
