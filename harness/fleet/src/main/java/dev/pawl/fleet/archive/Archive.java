package dev.pawl.fleet.archive;

import dev.pawl.cli.option.ReadingOptions;
import dev.pawl.fleet.cluster.Place;
import dev.pawl.fleet.manifest.Manifest;
import dev.pawl.fleet.work.Foreman;
import dev.pawl.fleet.work.Job;
import dev.pawl.fleet.work.Lines;
import dev.pawl.fleet.work.Task;
import dev.pawl.report.json.JsonResult;
import dev.pawl.report.json.ReportFormatException;
import dev.pawl.report.model.JudgedSource;
import dev.pawl.report.model.Report;
import dev.pawl.run.Session;
import dev.pawl.run.Version;
import dev.pawl.run.files.Digests;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.flink.core.execution.JobClient;

/**
 * The judging of an archive.
 *
 * @param manifest which sessions there are
 * @param sets what those of each set are judged by
 */
public record Archive(Manifest manifest, List<JudgedBy> sets) {

  /**
   * Reads rules and bindings of all sets.
   *
   * @param library folder of the rule library
   * @param reading how traces are read
   * @param findings how many findings are kept of each rule and session
   * @throws dev.pawl.run.RunException if anything is wrong with them
   */
  public static Archive of(Manifest manifest, Optional<Path> library, ReadingOptions reading, int findings) {
    return new Archive(manifest, manifest.sets().stream().map(set -> JudgedBy.read(set, library, reading, findings))
        .toList());
  }

  /**
   * Begins to judge the sessions of which nothing is kept yet.
   *
   * @param folder for what they come to
   * @param kept what is there already
   * @param every from one checkpoint to the next
   */
  public JobClient begin(Place place, Path folder, Lines kept, Duration every) throws Exception {
    List<Task> tasks = new ArrayList<>();
    int number = 0;
    for (int set = 0; set < sets.size(); set++) {
      for (Manifest.Recorded session : manifest.sets().get(set).sessions()) {
        if (!kept.isDone(number)) {
          tasks.add(ArchiveWork.task(number, set, session.files()));
        }
        number++;
      }
    }
    return new Job("pawl archive", Foreman.over(folder, tasks), new ArchiveWork(sets)).begin(place, folder, every);
  }

  /** What one session came to. */
  public record Judged(Manifest.Recorded session, JudgedSource judged) {}

  /** By what, and how, the sessions of a set are judged. */
  public Session session(int set) {
    return sets.get(set).session();
  }

  /** What the sessions of a set came to, in the order of the manifest. */
  public Stream<Judged> judged(int set, Session session, Lines lines) {
    int first = IntStream.range(0, set).map(before -> sets.get(before).sessions()).sum();
    return IntStream.range(0, sets.get(set).sessions()).mapToObj(index -> {
      Manifest.Recorded recorded = manifest.sets().get(set).sessions().get(index);
      try {
        return new Judged(recorded, JsonResult.readJudged(recorded.name(), lines.words(first + index), session.rules()
            .book()));
      } catch (ReportFormatException e) {
        throw new IllegalStateException("what a worker wrote can be read here", e);
      }
    });
  }

  /** The report of a set: the same as if its sessions had been judged here, one after the other. */
  public Report report(int set, Lines lines) {
    Session session = session(set);
    return session.merged(judged(set, session, lines).map(Judged::judged));
  }

  /** All that determines what the sessions come to, beside their traces. */
  public String plan() {
    return Version.TEXT + " " + Version.BUILD + " " + Digests.sha256(manifest + " " + sets);
  }

  /** The sessions by their numbers. */
  public List<Manifest.Recorded> sessions() {
    return manifest.sets().stream().flatMap(set -> set.sessions().stream()).toList();
  }

  /** Whether there is a line for each session. */
  public boolean isWhole(Lines lines) {
    return lines.size() == manifest.size();
  }

  /** What is kept in a folder. */
  public static Lines lines(Path folder) throws IOException {
    return Lines.in(Job.lines(folder));
  }
}
