package dev.pawl.fleet.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.command.Fleet;
import dev.pawl.cli.command.StressSetup;
import dev.pawl.cli.keep.Asked;
import dev.pawl.cli.keep.ReportFolder;
import dev.pawl.cli.keep.StressFolder;
import dev.pawl.cli.option.FleetOptions;
import dev.pawl.cli.option.ReadingOptions;
import dev.pawl.cli.option.ReportOptions;
import dev.pawl.cli.output.StressProgress;
import dev.pawl.engine.Caution;
import dev.pawl.engine.Verdict;
import dev.pawl.fleet.archive.Archive;
import dev.pawl.fleet.campaign.FleetCampaign;
import dev.pawl.fleet.cluster.Stores;
import dev.pawl.fleet.manifest.Manifest;
import dev.pawl.fleet.manifest.ManifestReader;
import dev.pawl.fleet.manifest.Places;
import dev.pawl.fleet.table.Tables;
import dev.pawl.fleet.work.Job;
import dev.pawl.fleet.work.Lines;
import dev.pawl.report.model.Report;
import dev.pawl.report.model.StressReport;
import dev.pawl.report.text.StressText;
import dev.pawl.run.Session;
import dev.pawl.run.stress.Campaign;
import dev.pawl.run.stress.StressFindings;
import dev.pawl.trace.time.TimeScale;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import java.util.stream.LongStream;

/** The jobs of a fleet, from what the user asked for to what is written. */
public final class FleetJobs implements Fleet {

  private static final String REPORTS = "reports";
  private static final String SUMMARY = "summary.txt";
  private static final Set<String> ARCHIVE_NAMES = Set.of(REPORTS, SUMMARY, Tables.SESSIONS, Tables.MONTHS,
      Tables.TRENDS, Tables.FIRSTS, Tables.OUTLIERS);
  private static final Set<String> CAMPAIGN_NAMES = Set.of("stress.html", "stress.txt", "matrix.csv", "findings");

  private final boolean submitted;

  /** Jobs of the command line, which says where they are done. */
  public FleetJobs() {
    this(false);
  }

  /**
   * Jobs.
   *
   * @param submitted whether they are done where this program was submitted to
   */
  FleetJobs(boolean submitted) {
    this.submitted = submitted;
  }

  private Workplace workplace(FleetOptions options, Console console) throws IOException {
    return submitted ? Workplace.submitted(options, console) : Workplace.of(options, stores(console), console);
  }

  private static Stores stores(Console console) {
    return Stores.of(console.environment(), console.home().resolve("lib/fleet/plugins"));
  }

  @Override
  public int archive(String manifestFile, FleetOptions options, Console console) {
    if (!submitted) {
      stores(console).open();
    }
    // The folder in which a worker elsewhere works is not that of the command.
    boolean elsewhere = submitted || options.cluster().isPresent();
    Path file = elsewhere ? Path.of(manifestFile).toAbsolutePath() : Path.of(manifestFile);
    Manifest manifest = ManifestReader.read(file);
    Archive archive = Archive.of(manifest, Optional.of(console.home().resolve("rules")), options
        .reading(), options.findings());
    Instant now = console.now();
    try (FleetFolder folder = FleetFolder.claim(options.out(), ARCHIVE_NAMES);
        Workplace workplace = workplace(options, console)) {
      List<Manifest.Recorded> sessions = archive.sessions();
      Lines kept = folder.kept(archive.plan(), (number, time) -> unchanged(sessions.get(number), time));
      if (kept.size() > 0) {
        console.err().println("pawl: " + kept.size() + " of " + sessions.size()
            + " sessions were judged before, by a run that did not end; their results were taken over");
      }
      if (kept.size() < sessions.size()) {
        Duration every = Duration.ofSeconds(options.checkpoint());
        FleetProgress progress = new FleetProgress(console, options.quiet(), "sessions", kept.size(), sessions.size(),
            share(sessions, kept));
        workplace.await(folder.work(), progress, place -> archive.begin(place, folder.work(), kept, every));
      }
      int status = write(archive, Archive.lines(folder.work()), folder.place(), now, options, console);
      folder.end();
      return status;
    } catch (IOException e) {
      throw FleetFolder.trouble(Path.of(options.out()), e);
    }
  }

  /** The part of the work that is in the first sessions that are to be judged, by the bytes of their traces. */
  private static IntToDoubleFunction share(List<Manifest.Recorded> sessions, Lines kept) {
    long[] bytes = IntStream.range(0, sessions.size()).filter(number -> !kept.isDone(number)).mapToLong(
        number -> bytes(sessions.get(number))).toArray();
    boolean known = LongStream.of(bytes).allMatch(each -> each >= 0);
    Arrays.parallelPrefix(bytes, Long::sum);
    return done -> known ? (double) bytes[Math.min(done, bytes.length) - 1] / bytes[bytes.length - 1] : Double.NaN;
  }

  private static long bytes(Manifest.Recorded session) {
    long bytes = 0;
    for (String file : session.files()) {
      if (Places.isAddress(file)) {
        return -1;
      }
      // One that is not there takes no time, and is told in its result.
      bytes += new File(file).length();
    }
    return bytes;
  }

  private static boolean unchanged(Manifest.Recorded session, FileTime time) {
    try {
      for (String file : session.files()) {
        if (Places.isAddress(file) || Files.getLastModifiedTime(Path.of(file)).compareTo(time) >= 0) {
          return false;
        }
      }
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  private static int write(Archive archive, Lines lines, Path place, Instant now, FleetOptions options,
      Console console) throws IOException {
    if (!archive.isWhole(lines)) {
      throw new CommandException("only " + lines.size() + " of " + archive.manifest().size() + " sessions have a result"
          + " in " + place + "; all machines of the cluster must see this folder under this path");
    }
    boolean failure = false;
    long broken = 0;
    Files.createDirectories(place.resolve(REPORTS));
    String summary;
    try (Tables tables = new Tables(place)) {
      for (int set = 0; set < archive.sets().size(); set++) {
        Manifest.RuleSet sessions = archive.manifest().sets().get(set);
        Session session = archive.session(set);
        tables.add(sessions, session.rules().book(), archive.judged(set, session, lines));
        Report report = archive.report(set, lines).made(now);
        write(report, place.resolve(REPORTS).resolve(sessions.name()), sessions, options);
        failure |= report.hasFailure();
        broken += report.count(Verdict.BROKEN);
        console.out().println(sessions.name() + ": " + sessions.sessions().size() + " sessions, "
            + report.count(Verdict.HELD) + " held, " + report.count(Verdict.BROKEN) + " broken, "
            + report.count(Verdict.UNDECIDED) + " undecided, " + report.count(Verdict.NOT_EXERCISED)
            + " not exercised, " + report.unjudged() + " could not be judged");
      }
      summary = tables.summary();
    }
    StringBuilder page = new StringBuilder(summary).append('\n');
    Caution.OF_VERDICTS.forEach(caution -> page.append(caution.text()).append('\n'));
    Files.writeString(place.resolve(SUMMARY), page);
    console.out().print(page);
    return failure ? ExitStatus.WRONG_INPUT : broken > 0 ? ExitStatus.RULE_BROKEN : ExitStatus.NOTHING_BROKEN;
  }

  @Override
  public int campaign(StressSetup setup, List<String> words, FleetOptions options, Console console) {
    FleetCampaign campaign = FleetCampaign.of(setup, words, console.home(), options.findings());
    try (FleetFolder folder = FleetFolder.claim(options.out(), CAMPAIGN_NAMES);
        Workplace workplace = workplace(options, console)) {
      Lines kept = folder.kept(campaign.plan(), (number, time) -> true);
      if (kept.size() > 0) {
        console.err().println("pawl: " + kept.size() + " runs were made before; what they came to was taken over");
      }
      int runs = campaign.campaign().runs();
      FleetProgress progress = new FleetProgress(console, options.quiet(), "runs", kept.size(), runs,
          done -> (double) done / Math.max(1, runs - kept.size()));
      workplace.await(folder.work(), progress, place -> campaign.begin(place, folder.work(), Duration.ofSeconds(options
          .checkpoint())));
      StressProgress silent = new StressProgress(console, true, runs);
      Campaign.Outcome outcome = campaign.outcome(Lines.in(Job.lines(folder.work())), silent);
      StressReport report = StressFindings.of(campaign.campaign(), outcome, StressFolder::name, StressFolder::name);
      new StressFolder(folder.place()).write(report, outcome, setup.ride(), setup.controller());
      console.out().print(StressText.of(report, console.style()));
      folder.end();
      return report.hasUnnoticed() ? ExitStatus.RULE_BROKEN : ExitStatus.NOTHING_BROKEN;
    } catch (IOException e) {
      throw FleetFolder.trouble(Path.of(options.out()), e);
    }
  }

  /** As {@code pawl check} writes it. */
  private static void write(Report report, Path place, Manifest.RuleSet set, FleetOptions options) {
    ReadingOptions reading = options.reading();
    List<Asked.Setting> settings = List.of(new Asked.Setting(ReadingOptions.TIME_UNIT.name(), reading.timeScale().map(
        TimeScale::label).orElse("none (usual)")), new Asked.Setting(ReadingOptions.LENIENT.name(), reading.lenient()
            ? "yes" : "no (usual)"), new Asked.Setting(ReportOptions.FINDINGS.name(), "" + options.findings()));
    Asked asked = new Asked("pawl check", settings, List.of(), set.rules(), set.sessions().stream().flatMap(
        session -> session.files().stream()).toList(), Optional.empty());
    try (ReportFolder folder = ReportFolder.claim(place.toString())) {
      folder.write(report, asked);
    }
  }
}
