package dev.pawl.cli.command;

import dev.pawl.cli.CommandException;
import dev.pawl.cli.Console;
import dev.pawl.cli.ExitStatus;
import dev.pawl.cli.option.Operands;
import dev.pawl.cli.option.Syntax;
import dev.pawl.run.ride.NewRide;
import java.nio.file.Path;
import java.util.List;
import picocli.CommandLine.ParseResult;

/** {@code pawl begin}: the folder that a ride begins with, out of a description of its layout. */
public final class BeginCommand implements Command {

  @Override
  public Syntax syntax() {
    return Syntax.of(List.of(), Operands.any("LAYOUT FOLDER",
        "The description of the layout, and the folder to be made."),
        "Begins a ride: out of a short description of its layout come its rule file with the first rules and examples,"
            + " its bindings to be filled in, and what the rules of the library that it adopts need of it. The folder"
            + " must not be there yet, or be empty.",
        "A layout is a text such as:",
        "  ride \"Gannet Cliff\"",
        "  zone platform begins at platform_flag released by gate_release",
        "  zone lift     begins at foot_flag     driven by lift_run",
        "  zone gorge    begins at top_flag",
        "  stop estop_chain within 500 ms reset reset_button");
  }

  @Override
  public int run(ParseResult words, Console console) {
    List<String> named = Operands.of(words);
    if (named.size() != 2) {
      throw new CommandException("name the description of the layout, and the folder to be made ('"
          + words.commandSpec().name() + " --help' shows how)");
    }
    Path folder = Path.of(named.get(1));
    NewRide ride = NewRide.of(Path.of(named.get(0)), folder, console.home().resolve("rules"));
    ride.writeTo(folder);
    ride.files().keySet().forEach(file -> console.out().println(folder.resolve(file)));
    console.out().println(ride.rules() + " rules judge already: pawl check --rules " + folder + " TRACE");
    if (!ride.blanks().isEmpty()) {
      console.out().println("The adopted rules wait until " + ride.blanks().size() + (ride.blanks().size() == 1
          ? " name is" : " names are") + " filled in: " + String.join(", ", ride.blanks()));
    }
    if (!ride.offered().isEmpty()) {
      console.out().println("Not adopted of the library: " + String.join(", ", ride.offered()));
    }
    console.remind(cautions());
    return ExitStatus.NOTHING_BROKEN;
  }
}
