package dev.pawl.fleet.campaign;

import dev.pawl.cli.Console;
import dev.pawl.cli.Interruption;
import dev.pawl.cli.command.FleetCommand;
import dev.pawl.cli.command.StressSetup;
import dev.pawl.fleet.work.Task;
import dev.pawl.fleet.work.Work;
import dev.pawl.run.RunException;
import dev.pawl.run.stress.Campaign;
import dev.pawl.run.stress.Maker;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.apache.flink.runtime.execution.SuppressRestartsException;

/**
 * The making of runs.
 *
 * @param words of the command, which each worker reads
 * @param home of pawl, where its rule library is
 * @param fingerprint of all that the runs depend on
 * @param findings how many hazards are made small
 */
record CampaignWork(List<String> words, String home, String fingerprint, int findings) implements Work {

  /** A task that makes a run begins with this, one that makes it small with another sign. */
  static final char RUN = 'r';
  static final char SMALL = 's';

  @Override
  public Worker open() {
    Maker maker = campaign().maker();
    return task -> {
      String words = task.words().substring(1);
      return new Done(task.words().charAt(0) == RUN ? maker.run(words) : maker.small(words), 0, false);
    };
  }

  /** What the others come to depends on each: a campaign cannot leave one out. */
  @Override
  public Done givenUp(Task task) {
    throw end(new RunException("run " + task.number() + " cannot be made: " + task.givenUp()));
  }

  private static SuppressRestartsException end(RunException why) {
    return new SuppressRestartsException(why);
  }

  /** The campaign, as it is read here. */
  Campaign campaign() {
    PrintStream nobody = new PrintStream(OutputStream.nullOutputStream());
    StressSetup setup = FleetCommand.campaign(words, new Console(nobody, nobody, Map.of(), Path.of(home),
        new Interruption()));
    if (!setup.fingerprint(setup.how()).equals(fingerprint)) {
      throw end(new RunException("the files of the campaign are not the same here as where it was begun; all machines"
          + " must see the same folder"));
    }
    return setup.campaign(findings);
  }
}
