package conewise.station.library;

import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.plan.PlannedBox;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.client.JigListener;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.QuickSweep;
import conewise.jig.sweep.SweepListener;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.protocol.link.ByteLink;

/** Measures a box and judges it. */
final class MeasureAndJudge {
  private MeasureAndJudge() {}

  // begin: measure and judge
  static Verdict judged(ByteLink link, PlannedBox plan, BoxJudge judge) throws JigFaultException {
    try (JigClient jig = JigClient.connect(link, JigListener.NONE)) {
      SweepOutcome outcome = new QuickSweep(SweepSettings.standard()).run(jig, SweepListener.NONE);
      if (outcome instanceof SweepResult result) {
        return judge.judge(plan, result.measurement());
      }
      throw new JigFaultException(((Interrupted) outcome).fault());
    }
  }
  // end
}
