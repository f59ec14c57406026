package dev.pawl.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * A small change of the demo ride's program, as lines state it: {@code -} lines are there and become the {@code +}
 * lines, {@code =} lines say where, and {@code ...} stands between two places. Blanks around a line do not count.
 *
 * @param name what the changed program is called
 * @param places the lines of each place, with their marks
 */
public record LogicPatch(String name, List<List<String>> places) {

  /** The program that is right, without extension. */
  public static final String RIGHT = "kestrel-ridge";

  private static final String START = "mistake ";

  /**
   * The programs with one mistake each.
   *
   * @param ride the ride's folder
   */
  public static List<LogicPatch> variants(Path ride) throws IOException {
    return blocks(ride.resolve("logic/variants.mistakes")).stream().map(LogicPatch::of).toList();
  }

  /** The blocks of a list of mistakes, each from its name on, without blanks and remarks. */
  public static List<List<String>> blocks(Path list) throws IOException {
    List<List<String>> blocks = new ArrayList<>();
    for (String line : Files.readAllLines(list)) {
      if (line.startsWith(START)) {
        blocks.add(new ArrayList<>());
      }
      if (!line.isBlank() && !line.strip().startsWith("--")) {
        blocks.get(blocks.size() - 1).add(line.strip());
      }
    }
    return blocks;
  }

  /** The patch that a block states; its other lines are left out. */
  public static LogicPatch of(List<String> block) {
    List<List<String>> places = new ArrayList<>(List.of(new ArrayList<>()));
    for (String line : block) {
      if (line.equals("...")) {
        places.add(new ArrayList<>());
      } else if (line.matches("[=+-] .+")) {
        places.get(places.size() - 1).add(line);
      }
    }
    return new LogicPatch(block.get(0).substring(START.length()), places);
  }

  /**
   * The lines of the right program with the change in them.
   *
   * @throws IllegalArgumentException if a place is not there exactly once
   */
  public List<String> program(Path ride) throws IOException {
    List<String> lines = new ArrayList<>(Files.readAllLines(ride.resolve("logic/" + RIGHT + ".st")));
    for (List<String> place : places) {
      change(lines, start(lines, place), place);
    }
    return lines;
  }

  private int start(List<String> lines, List<String> place) {
    List<String> found = place.stream().filter(line -> !line.startsWith("+")).map(LogicPatch::bare).toList();
    List<String> bare = lines.stream().map(String::strip).toList();
    List<Integer> starts = new ArrayList<>();
    for (int i = 0; i + found.size() <= bare.size(); i++) {
      if (bare.subList(i, i + found.size()).equals(found)) {
        starts.add(i);
      }
    }
    if (starts.size() != 1) {
      throw new IllegalArgumentException(name + ": " + found + " is in the program " + starts.size() + " times");
    }
    return starts.get(0);
  }

  /** What is put in is indented as the line before it was. */
  private static void change(List<String> lines, int start, List<String> place) {
    int at = start;
    String indent = "";
    for (String line : place) {
      if (line.startsWith("+")) {
        lines.add(at++, indent + bare(line));
      } else {
        indent = " ".repeat(lines.get(at).length() - lines.get(at).stripLeading().length());
        if (line.startsWith("=")) {
          at++;
        } else {
          lines.remove(at);
        }
      }
    }
  }

  private static String bare(String line) {
    return line.substring(2).strip();
  }
}
