package dev.pawl.fleet.campaign;

import dev.pawl.cli.command.StressSetup;
import dev.pawl.fleet.cluster.Place;
import dev.pawl.fleet.work.Job;
import dev.pawl.fleet.work.Lines;
import dev.pawl.fleet.work.Task;
import dev.pawl.run.stress.Campaign;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Future;
import java.util.function.Function;
import org.apache.flink.core.execution.JobClient;

/**
 * A campaign whose runs workers make.
 *
 * @param campaign as it is read here
 * @param work as it travels
 */
public record FleetCampaign(Campaign campaign, CampaignWork work) {

  /**
   * The campaign that a command means.
   *
   * @param words of the command
   * @param home of pawl
   * @param findings how many hazards are made small
   */
  public static FleetCampaign of(StressSetup setup, List<String> words, Path home, int findings) {
    return new FleetCampaign(setup.campaign(findings), new CampaignWork(List.copyOf(words), home.toAbsolutePath()
        .toString(), setup.fingerprint(setup.how()), findings));
  }

  /** All that determines what its runs come to. */
  public String plan() {
    return work.fingerprint() + " " + work.findings();
  }

  /** Begins to make the runs of which nothing is kept yet. */
  public JobClient begin(Place place, Path folder, Duration every) throws Exception {
    return new Job("pawl campaign", new Leading(work, folder.toString()), work).begin(place, folder, every);
  }

  /** What it came to, when all of it is done: the same code once more, which finds all runs made. */
  public Campaign.Outcome outcome(Lines lines, Campaign.Listener listener) {
    return campaign.run(new Leading.Asking(campaign) {
      @Override
      <T> Future<T> ask(Task task, Function<String, T> read) {
        return CompletableFuture.completedFuture(read.apply(lines.words(task.number())));
      }
    }, listener);
  }
}
