package dev.pawl.fleet.manifest;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import dev.pawl.fleet.manifest.Manifest.Recorded;
import dev.pawl.fleet.manifest.Manifest.RuleSet;
import dev.pawl.grammar.source.NearName;
import dev.pawl.run.RunException;
import dev.pawl.run.files.FileTrouble;
import dev.pawl.run.files.TraceFiles;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** Reads a manifest, a table of comma-separated values (RFC 4180). */
public final class ManifestReader {

  private static final List<String> NEEDED = List.of("ride", "rules", "traces");
  private static final List<String> COLUMNS = List.of("ride", "rules", "bindings", "session", "day", "traces");
  private static final Pattern RIDE = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N}_-]*");

  private final Path file;
  private final Map<List<String>, List<Recorded>> sets = new LinkedHashMap<>();
  private final Map<String, Integer> setsOfRides = new LinkedHashMap<>();
  private final Set<List<String>> known = new HashSet<>();

  private ManifestReader(Path file) {
    this.file = file;
  }

  /**
   * Reads it, and looks which traces lie in its folders.
   *
   * @throws RunException with the place of the first thing that is wrong in it
   */
  public static Manifest read(Path file) {
    return new ManifestReader(file).read();
  }

  private Manifest read() {
    try (CsvReader<NamedCsvRecord> rows = CsvReader.builder().ofNamedCsvRecord(file, StandardCharsets.UTF_8)) {
      boolean first = true;
      for (NamedCsvRecord row : rows) {
        if (first) {
          requireColumns(row.getHeader());
          first = false;
        }
        add(row);
      }
    } catch (CsvParseException e) {
      throw new RunException(file + ": not a table of comma-separated values: " + e.getMessage());
    } catch (CharacterCodingException e) {
      throw new RunException(file + ": not text in UTF-8");
    } catch (IOException e) {
      throw new RunException(FileTrouble.message(file.toString(), e));
    } catch (UncheckedIOException e) {
      throw new RunException(FileTrouble.message(file.toString(), e.getCause()));
    }
    if (sets.isEmpty()) {
      throw new RunException(file + ": this manifest names no session; it needs a row of columns ("
          + String.join(",", COLUMNS) + ") and a row for each session");
    }
    return new Manifest(sets.entrySet().stream().map(this::set).toList());
  }

  private RuleSet set(Map.Entry<List<String>, List<Recorded>> entry) {
    List<String> key = entry.getKey();
    int number = setsOfRides.merge(key.get(0), 1, Integer::sum);
    return new RuleSet(key.get(0) + (number > 1 ? "." + number : ""), key.get(0), parts(key.get(1)).map(this::beside)
        .toList(), Optional.of(key.get(2)).filter(it -> !it.isEmpty()).map(this::beside), entry.getValue());
  }

  private void requireColumns(List<String> header) {
    for (String name : header) {
      if (!COLUMNS.contains(name)) {
        throw new RunException(file + ":1: '" + name + "' is no column of a manifest" + NearName.of(name, COLUMNS)
            .map(near -> "; did you mean '" + near + "'?").orElse("; its columns are " + String.join(", ", COLUMNS)));
      }
    }
    for (String name : NEEDED) {
      if (!header.contains(name)) {
        throw new RunException(file + ":1: the column '" + name + "' is missing");
      }
    }
  }

  private void add(NamedCsvRecord row) {
    String ride = field(row, "ride");
    if (!RIDE.matcher(ride).matches()) {
      throw new RunException(place(row) + "'" + ride + "' cannot be the name of a ride here: it becomes the name of a"
          + " folder; write letters, digits, - and _");
    }
    for (String name : NEEDED) {
      if (field(row, name).isEmpty()) {
        throw new RunException(place(row) + "the column '" + name + "' is empty");
      }
    }
    String day = field(row, "day");
    if (!day.isEmpty() && !isDay(day)) {
      throw new RunException(place(row) + "'" + day + "' is no day; write YYYY-MM-DD, or YYYY-MM for a month");
    }
    List<Recorded> sessions = sets.computeIfAbsent(List.of(ride, field(row, "rules"), field(row, "bindings")),
        unused -> new ArrayList<>());
    String name = field(row, "session");
    List<List<String>> recorded = recorded(row, !name.isEmpty());
    for (List<String> files : recorded) {
      String own = name.isEmpty() ? files.get(0) : name;
      if (!known.add(List.of(ride, own))) {
        throw new RunException(place(row) + "the session '" + own + "' of " + ride + " stands here twice");
      }
      sessions.add(new Recorded(own, Optional.of(day).filter(it -> !it.isEmpty()), files));
    }
  }

  /** The files of each session: of one with a name all, else each file is one. */
  private List<List<String>> recorded(NamedCsvRecord row, boolean one) {
    List<String> files = new ArrayList<>();
    for (String path : parts(field(row, "traces")).map(this::beside).toList()) {
      if (Places.holdsKeys(path)) {
        throw new RunException(place(row) + "an address holds keys, which would get into results; they belong into"
            + " Flink's settings (FLINK_CONF_DIR)");
      }
      files.addAll(Places.isAddress(path) ? Places.files(path, TraceFiles::isTrace) : local(path));
    }
    if (one && files.size() > 1 && files.stream().anyMatch(Places::isAddress)) {
      throw new RunException(place(row) + "the session '" + field(row, "session") + "' has several traces by addresses;"
          + " they can be joined only as local files");
    }
    return one ? List.of(files) : files.stream().map(List::of).toList();
  }

  /** A file that is not there is told in its result: an archive has such. */
  private static List<String> local(String path) {
    return Files.isDirectory(Path.of(path)) ? TraceFiles.of(List.of(path)).stream().map(Path::toString).toList()
        : List.of(path);
  }

  private static Stream<String> parts(String field) {
    return Stream.of(field.split(";")).map(String::trim).filter(part -> !part.isEmpty());
  }

  /** Paths count from the manifest's folder. */
  private String beside(String path) {
    return Places.isAddress(path) || file.getParent() == null ? path : file.getParent().resolve(path).toString();
  }

  private static boolean isDay(String text) {
    try {
      return text.length() == 7 ? YearMonth.parse(text) != null : LocalDate.parse(text) != null;
    } catch (DateTimeException e) {
      return false;
    }
  }

  private static String field(NamedCsvRecord row, String name) {
    return row.findField(name).orElse("").trim();
  }

  private String place(NamedCsvRecord row) {
    return file + ":" + row.getStartingLineNumber() + ": ";
  }
}
