/*
 * One function for each verb, called when the keys of its fields are known to be the verb's own, each once. It looks at
 * the values in the order in which the specification names the fields, then at what stands against the request
 * now; true when it was obeyed and answered.
 */
#ifndef OBEY_H
#define OBEY_H

#include <stdbool.h>

bool obey_identify(void);
bool obey_load(void);
bool obey_play(void);
bool obey_limit(void);
bool obey_record(void);
bool obey_stop(void);
bool obey_lamp(void);
bool obey_buzz(void);
bool obey_store(void);
bool obey_status(void);

#endif
