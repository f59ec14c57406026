package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.keep.Manifest;
import dev.pawl.cli.keep.Verification;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Option;
import dev.pawl.cli.option.Syntax;
import dev.pawl.grammar.source.Legible;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import picocli.CommandLine.ParseResult;

/** {@code pawl verify}: whether a report, and what it rests on, is as it was when the report was written. */
public final class VerifyCommand implements Command {

  private static final Option<Optional<String>> FROM = Option.text("FOLDER",
      "Where pawl ran: the paths of the inputs begin there; usual is the current folder.", "--from");
  private static final Option<Boolean> REPORT_ONLY = Option.flag(
      "Look at the files of the report only, not at what it rests on.", "--report-only");
  private static final Option<Optional<String>> KEPT = Option.text("SHA256",
      "The SHA-256 of the manifest, as you kept it elsewhere: the manifest itself must have it.", "--manifest")
      .as(VerifyCommand::sha256);

  @Override
  public Syntax syntax() {
    return Syntax.of(List.of(FROM, REPORT_ONLY, KEPT),
        Operands.any("REPORT", "The folder of a report, as --out wrote it."),
        "Says whether the files of a report, and the files that it rests on, are as they were when it was written; and"
            + " if not, which changed, are missing, or were added.",
        Manifest.WORTH + " 'gpg --detach-sign manifest.sha256' or 'openssl dgst -sha256 -sign KEY' do; a signature"
            + " beside the manifest, such as manifest.sha256.sig, is named, and checked by what made it.",
        "Exit status: 0 all as it was; 1 something changed, is missing or was added; 2 there is no manifest, or it"
            + " cannot be read.");
  }

  private static Optional<String> sha256(String option, Optional<String> word) {
    Optional<String> digits = word.map(text -> text.toLowerCase(Locale.ROOT));
    if (digits.isPresent() && !digits.get().matches("[0-9a-f]{64}")) {
      throw new CommandException(option + ": '" + word.get() + "' is no SHA-256, which is 64 hexadecimal digits");
    }
    return digits;
  }

  @Override
  public int run(ParseResult words, Console console) {
    List<String> named = Operands.of(words);
    if (named.size() != 1) {
      throw new CommandException((named.isEmpty() ? "no report: name the"
          : named.size() + " reports are named; name one") + " folder of a report ('pawl verify --help' shows how)");
    }
    Path folder = Path.of(named.get(0));
    if (!Files.isRegularFile(folder.resolve(Manifest.NAME))) {
      throw new CommandException(folder + ": there is no " + Manifest.NAME + " in it, which a report of pawl has");
    }
    Verification found = Verification.ofReport(folder);
    if (!REPORT_ONLY.of(words)) {
      found = found.and(Verification.ofInputs(folder, Path.of(FROM.of(words).orElse(""))));
    }
    Optional<String> kept = KEPT.of(words);
    boolean other = kept.isPresent() && !kept.get().equals(Verification.manifest(folder));
    if (other) {
      console.out().println("changed  " + folder.resolve(Manifest.NAME) + ": it has not the SHA-256 that was kept");
    }
    say("changed  ", found.changed(), console);
    say("missing  ", found.missing(), console);
    say("added    ", found.added(), console);
    say("beside   ", found.beside(), console);
    console.out().println(found.same() + " as stated, " + (found.changed().size() + (other ? 1 : 0)) + " changed, "
        + found.missing().size() + " missing, " + found.added().size() + " added"
        + (REPORT_ONLY.of(words) ? "; what the report rests on was not looked at" : ""));
    if (kept.isEmpty()) {
      console.out().println(Manifest.WORTH);
    }
    return found.isSame() && !other ? ExitStatus.NOTHING_BROKEN : ExitStatus.RULE_BROKEN;
  }

  private static void say(String what, List<String> paths, Console console) {
    paths.forEach(path -> console.out().println(what + Legible.of(path)));
  }
}
