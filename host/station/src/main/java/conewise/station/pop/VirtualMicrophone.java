package conewise.station.pop;

import conewise.jig.client.JigClient;
import conewise.jig.step.StepRecord;
import conewise.simulator.analog.Microphone;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ProgressLine;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;

/** A virtual jig whose microphone this program itself holds before one cone after another. */
public final class VirtualMicrophone implements MicrophoneBench {
  /** What a person is told to keep. */
  private static final double DISTANCE_M = 0.02;

  private final World world;
  private final ProgressLine progress;
  private final StopRequest stop;

  /** Of a world; its microphone is moved. */
  public VirtualMicrophone(World world, ProgressLine progress, StopRequest stop) {
    this.world = world;
    this.progress = progress;
    this.stop = stop;
  }

  @Override
  public StepRecord hear(String driver) throws CommandFailure {
    Microphone before = world.jig().microphone().before(driver, DISTANCE_M);
    World moved = world.with(world.jig().with(before));
    try (JigClient client = new JigChoice.Virtual(moved).connect(progress)) {
      return new Steps(client, progress, stop).heard(driver);
    }
  }

  @Override
  public boolean again(String driver, String because) {
    return false;
  }
}
