// Not hostile: the smallest plugin that is accepted.
#include "harmless.h"

CASEBOUND_MANIFEST("plain", instance_of<Harmless>)
