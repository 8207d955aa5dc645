package conewise.jig.client;

import conewise.protocol.Fields;
import conewise.protocol.JigError;
import conewise.protocol.JigIdentity;
import java.util.Locale;

/**
 * Why a jig did not do what was asked. Each kind says in one sentence what happened, and what to do
 * next.
 */
public sealed interface JigFault {

  /** What happened, in one sentence. */
  String sentence();

  /** What to do about it, in one sentence. */
  String nextStep();

  /** True when the same may be tried again on the same session, after a {@code stop}. */
  default boolean isPassing() {
    return false;
  }

  /**
   * The jig said nothing that answers a request.
   *
   * @param link the link's name
   * @param asked the request's verb
   * @param waitedSeconds how long it was waited for
   */
  record NoAnswer(String link, String asked, double waitedSeconds) implements JigFault {
    @Override
    public String sentence() {
      return String.format(
          Locale.ROOT,
          "The jig at %s did not answer \"%s\" within %.1f s.",
          link,
          asked,
          waitedSeconds);
    }

    @Override
    public String nextStep() {
      return "Check the cable and the jig's power, and that this is the jig's port.";
    }

    @Override
    public boolean isPassing() {
      return true;
    }
  }

  /**
   * The link itself is gone.
   *
   * @param sentence what the link said of it
   */
  record LinkLost(String sentence) implements JigFault {
    @Override
    public String nextStep() {
      return "Plug the jig in again and start over; what was measured is kept.";
    }
  }

  /**
   * The jig started afresh in the middle of a session.
   *
   * @param cause what it gave as the cause: power, reset, brown-out, watchdog
   */
  record SessionLost(String cause) implements JigFault {
    @Override
    public String sentence() {
      return "The jig restarted in the middle of the session (cause: " + cause + ").";
    }

    @Override
    public String nextStep() {
      return "Check its supply and cable, then start over; what was measured is kept.";
    }
  }

  /**
   * The jig refused a request that reached it whole.
   *
   * @param asked the request's verb
   * @param error which refusal
   * @param fields what the jig added: the field concerned, its value and limits
   */
  record RequestRefused(String asked, JigError error, Fields fields) implements JigFault {
    @Override
    public String sentence() {
      String where = fields.keys().isEmpty() ? "" : " (" + fields + ")";
      return "The jig refused \""
          + asked
          + "\" with error "
          + error.number()
          + ", "
          + error.wireName()
          + where
          + ": "
          + error.cause();
    }

    @Override
    public String nextStep() {
      return error.nextStep();
    }

    @Override
    public boolean isPassing() {
      return error == JigError.TABLE_DIFFERS || error == JigError.BUSY;
    }
  }

  /**
   * A request or its answer was damaged on the way, so that it is not known whether it was obeyed.
   *
   * @param asked the request's verb
   * @param what what was seen
   */
  record DamagedExchange(String asked, String what) implements JigFault {
    @Override
    public String sentence() {
      return "The link damaged \"" + asked + "\" or its answer: " + what;
    }

    @Override
    public String nextStep() {
      return "If it happens often, try a shorter or better USB cable.";
    }

    @Override
    public boolean isPassing() {
      return true;
    }
  }

  /**
   * A block of a record was lost or damaged; the record is not bridged over it.
   *
   * @param record the record's number
   * @param block the block that was expected, from 0
   * @param what what was seen instead
   */
  record DamagedBlock(int record, int block, String what) implements JigFault {
    @Override
    public String sentence() {
      return "Block " + block + " of record " + record + " did not arrive whole: " + what;
    }

    @Override
    public String nextStep() {
      return "Record again; if it happens often, try a shorter or better USB cable.";
    }

    @Override
    public boolean isPassing() {
      return true;
    }
  }

  /**
   * The link fell behind and the jig lost samples.
   *
   * @param record the record's number
   */
  record Overrun(int record) implements JigFault {
    @Override
    public String sentence() {
      return "The link fell behind and record " + record + " lost samples.";
    }

    @Override
    public String nextStep() {
      return "Record again; if it happens often, unplug other devices from the same USB hub.";
    }

    @Override
    public boolean isPassing() {
      return true;
    }
  }

  /**
   * The jig stopped the drive by itself.
   *
   * @param cause what it gave as the cause: silence, clipping, refused, or "unknown"
   */
  record Halted(String cause) implements JigFault {
    @Override
    public String sentence() {
      return "The jig stopped the drive by itself (cause: " + cause + ").";
    }

    @Override
    public String nextStep() {
      return cause.equals("clipping")
          ? "Look for a voltage or a loose clip on the terminals, or use a lower level."
          : "Start over; if it happens often, check the cable.";
    }

    @Override
    public boolean isPassing() {
      return !cause.equals("clipping");
    }
  }

  /**
   * Something else than a jig is on the link, or the rate is wrong.
   *
   * @param link the link's name
   * @param heard how many bytes came of which no line was a jig's
   */
  record ForeignDevice(String link, long heard) implements JigFault {
    @Override
    public String sentence() {
      return "What is at "
          + link
          + " sent "
          + heard
          + " bytes, but no line of a jig that answers \"identify\".";
    }

    @Override
    public String nextStep() {
      return "Choose another port, or check the baud rate.";
    }
  }

  /**
   * The jig speaks another version of the protocol.
   *
   * @param link the link's name
   * @param theirs the version that it states
   */
  record WrongVersion(String link, String theirs) implements JigFault {
    @Override
    public String sentence() {
      return "The jig at "
          + link
          + " speaks protocol "
          + theirs
          + ", but this program speaks protocol "
          + JigIdentity.PROTOCOL
          + ".";
    }

    @Override
    public String nextStep() {
      return "Load firmware of protocol " + JigIdentity.PROTOCOL + ", or update this program.";
    }
  }

  /**
   * The jig answered whole lines that cannot be meant: a field absent, a number absurd.
   *
   * @param asked the request's verb
   * @param because what is wrong with the answer, one sentence
   */
  record AbsurdAnswer(String asked, String because) implements JigFault {
    @Override
    public String sentence() {
      return "The jig's answer to \"" + asked + "\" cannot be used: " + because;
    }

    @Override
    public String nextStep() {
      return "Check the jig's firmware against the protocol's description.";
    }
  }

  /**
   * This jig cannot do what is wanted, or is not the one that is wanted.
   *
   * @param sentence what is wanted and what the jig has
   * @param nextStep what to do instead
   */
  record Unsuited(String sentence, String nextStep) implements JigFault {}

  /** Whoever asked for it stopped it. */
  record Cancelled() implements JigFault {
    @Override
    public String sentence() {
      return "The measurement was stopped on request.";
    }

    @Override
    public String nextStep() {
      return "Resume it, or start over.";
    }
  }
}
