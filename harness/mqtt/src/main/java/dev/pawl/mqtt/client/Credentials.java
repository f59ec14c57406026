package dev.pawl.mqtt.client;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A user's name and password. Prints as neither. */
public final class Credentials {

  /** Environment variables that carry them. */
  public static final String USER_VARIABLE = "PAWL_MQTT_USER";

  public static final String PASSWORD_VARIABLE = "PAWL_MQTT_PASSWORD";

  private final String user;
  private final String password;

  public Credentials(String user, String password) {
    this.user = user;
    this.password = password;
  }

  /**
   * Reads a file of two lines, {@code user NAME} and {@code password SECRET}.
   *
   * @throws ConnectionTrouble if everybody may read it, or it cannot be read or says something else; the message holds
   *     no line of the file
   */
  public static Credentials fromFile(Path file) {
    SecretFile.requireUnseen(file);
    List<String> lines;
    try {
      lines = Files.readAllLines(file, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new ConnectionTrouble("cannot read the credentials file " + file, e);
    }
    String user = null;
    String password = null;
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i);
      if (line.startsWith("user ") && user == null) {
        user = line.substring("user ".length());
      } else if (line.startsWith("password ") && password == null) {
        password = line.substring("password ".length());
      } else if (!line.isBlank()) {
        throw new ConnectionTrouble(file + ":" + (i + 1)
            + ": a credentials file has one line 'user NAME' and one 'password SECRET'");
      }
    }
    if (user == null || password == null) {
      throw new ConnectionTrouble(file + ": the line '" + (user == null ? "user NAME" : "password SECRET")
          + "' is missing");
    }
    return new Credentials(user, password);
  }

  /** What the environment states; empty if it states no user. */
  public static Optional<Credentials> fromEnvironment(Map<String, String> environment) {
    String user = environment.getOrDefault(USER_VARIABLE, "");
    if (user.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(new Credentials(user, environment.getOrDefault(PASSWORD_VARIABLE, "")));
  }

  /** Whether a client states the same; takes as long however much of it is right. */
  public boolean match(String statedUser, byte[] statedPassword) {
    boolean same = MessageDigest.isEqual(user.getBytes(StandardCharsets.UTF_8),
        statedUser.getBytes(StandardCharsets.UTF_8));
    return MessageDigest.isEqual(password(), statedPassword) & same;
  }

  String user() {
    return user;
  }

  byte[] password() {
    return password.getBytes(StandardCharsets.UTF_8);
  }

  @Override
  public String toString() {
    return "credentials (not shown)";
  }
}
