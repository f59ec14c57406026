package dev.pawl.fleet.archive;

import dev.pawl.fleet.manifest.Places;
import dev.pawl.fleet.work.Task;
import dev.pawl.fleet.work.Work;
import dev.pawl.report.json.JsonResult;
import dev.pawl.report.model.Input;
import dev.pawl.report.model.JudgedSource;
import dev.pawl.report.model.Reading;
import dev.pawl.report.model.TraceResult;
import dev.pawl.run.EventSource;
import dev.pawl.run.RunException;
import dev.pawl.run.Session;
import dev.pawl.run.files.FileTrouble;
import java.io.IOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The judging of sessions.
 *
 * @param sets what they are judged by
 */
record ArchiveWork(List<JudgedBy> sets) implements Work {

  private static final String SEPARATOR = "\t";

  /** The task of a session. */
  static Task task(int number, int set, List<String> files) {
    return new Task(number, set + SEPARATOR + String.join(SEPARATOR, files));
  }

  @Override
  public Worker open() {
    Map<Integer, Session> sessions = new HashMap<>();
    return task -> {
      String[] words = task.words().split(SEPARATOR);
      Session session = sessions.computeIfAbsent(Integer.valueOf(words[0]), set -> sets.get(set).session());
      return done(judged(sets.get(Integer.parseInt(words[0])), session, files(task)));
    };
  }

  private static List<String> files(Task task) {
    String[] words = task.words().split(SEPARATOR);
    return List.of(words).subList(1, words.length);
  }

  private static Done done(JudgedSource judged) {
    return new Done(JsonResult.write(judged), judged.result().lines(), judged.result().rules().isEmpty());
  }

  @Override
  public Done givenUp(Task task) {
    return done(unreadable(files(task).get(0), "could not be judged: " + task.givenUp()));
  }

  /** What is wrong with a session is its result: it must not keep the others from theirs. */
  private static JudgedSource judged(JudgedBy by, Session session, List<String> files) {
    try {
      return Places.isAddress(files.get(0)) ? fetched(by, session, files.get(0))
          : session.judgeOne(by.source(session, files.stream().map(Path::of).toList()), by.sessions());
    } catch (RunException e) {
      return unreadable(files.get(0), e.summary());
    } catch (IOException e) {
      return unreadable(files.get(0), FileTrouble.reason(e));
    } catch (RuntimeException | StackOverflowError e) {
      return unreadable(files.get(0), "an unexpected problem, please report it: " + e);
    }
  }

  private static JudgedSource unreadable(String name, String why) {
    return new JudgedSource(TraceResult.unreadable(name, new Reading(List.of(), List.of(), 0, why)), List.of(),
        List.of(), false);
  }

  private static JudgedSource fetched(JudgedBy by, Session session, String address) throws IOException {
    try (Fetched file = Fetched.of(address)) {
      EventSource source = by.source(session, List.of(file.path()));
      JudgedSource judged = session.judgeOne(new NamedSource(address, source), by.sessions());
      List<Input> inputs = judged.inputs().stream().map(input -> new Input(input.role(), address, input
          .bytes(), input.sha256())).toList();
      return new JudgedSource(judged.result(), inputs, judged.cautions(), judged.endedEarly());
    }
  }
}
