// A shared library that is no plugin.
extern "C" __attribute__((visibility("default"))) int casebound_manifest() { return 0; }
