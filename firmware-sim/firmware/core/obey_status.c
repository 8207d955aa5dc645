/* status. */
#include "obey.h"

#include "clipping.h"
#include "jig.h"
#include "out.h"
#include "panel.h"
#include "reply.h"
#include "stream.h"
#include "tick.h"
#include "wave.h"

static flash_text wave_name(void) {
  switch (wave_now.kind) {
    case WAVE_TONE:
      return TEXT("tone");
    case WAVE_TABLE:
      return TEXT("table");
    case WAVE_DC:
      return TEXT("dc");
    default:
      return TEXT("none");
  }
}

bool obey_status(void) {
  clipping_gather();
  reply_ok_begin();
  out_field_u32(TEXT("tick"), tick_read());
  out_field_text(TEXT("wave"), wave_name());
  out_field_u32(TEXT("recording"), stream_record());
  out_field_text(TEXT("foot"), panel_foot_down() ? TEXT("down") : TEXT("up"));
  out_field_u32(TEXT("clipped"), jig_counters.clipped);
  out_field_u32(TEXT("damaged"), jig_counters.damaged);
  out_field_u32(TEXT("refused"), jig_counters.refused);
  out_field_u32(TEXT("overruns"), jig_counters.overruns);
  out_field_u32(TEXT("halts"), jig_counters.halts);
  return reply_ok_end();
}
