package org.trebleproof.bench.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What stands in a job file, to be changed in place. The file has been read without complaint, so
 * every name that is asked for is there.
 */
public final class JobContent {

  private static final String SETUPS = "setups";
  private static final String EXTENDS = "extends";

  private final Map<String, Object> top;

  /**
   * @param content as read; not changed
   */
  public JobContent(Map<String, Object> content) {
    top = copied(content);
  }

  /** As it now stands. */
  public Map<String, Object> content() {
    return top;
  }

  /** The content with all of these said. */
  public static Map<String, Object> with(Map<String, Object> content, List<JobEdit> edits) {
    JobContent changed = new JobContent(content);
    edits.forEach(e -> e.write(changed));
    return changed.content();
  }

  Map<String, Object> fixture() {
    return in(top, "fixture");
  }

  Map<String, Object> inFixture(String key) {
    return in(fixture(), key);
  }

  Map<String, Object> part(String name) {
    return in(in(top, "parts"), name);
  }

  Map<String, Object> capture(String id) {
    for (Object entry : (List<?>) top.get("captures")) {
      Map<String, Object> capture = map(entry);
      if (id.equals(capture.get("id"))) {
        return capture;
      }
    }
    throw new IllegalArgumentException("no capture " + id);
  }

  /**
   * Says something of one setup and of no other: what extends it keeps what it had taken over.
   *
   * @param value empty for nothing there
   */
  void setup(String name, String key, Optional<Object> value) {
    Map<String, Object> setups = in(top, SETUPS);
    boolean reading = key.equals("dcResistance");
    for (String other : setups.keySet()) {
      Map<String, Object> heir = in(setups, other);
      if (!reading && name.equals(heir.get(EXTENDS)) && !heir.containsKey(key)) {
        heir.put(key, found(setups, name, key));
      }
    }
    Map<String, Object> own = in(setups, name);
    if (value.isPresent()) {
      own.put(key, value.get());
    } else if (own.containsKey(EXTENDS)) {
      own.put(key, null);
    } else {
      own.remove(key);
    }
  }

  /** What holds in a setup, its own or taken over; null for nothing. */
  private static Object found(Map<String, Object> setups, String name, String key) {
    Map<String, Object> own = in(setups, name);
    return own.containsKey(key) || !own.containsKey(EXTENDS)
        ? own.get(key)
        : found(setups, String.valueOf(own.get(EXTENDS)), key);
  }

  private static Map<String, Object> in(Map<String, Object> from, String key) {
    return map(from.computeIfAbsent(key, k -> new LinkedHashMap<String, Object>()));
  }

  @SuppressWarnings("unchecked") // all maps here were made by copied
  private static Map<String, Object> map(Object value) {
    return (Map<String, Object>) value;
  }

  private static Map<String, Object> copied(Map<?, ?> from) {
    Map<String, Object> copy = new LinkedHashMap<>();
    from.forEach((key, value) -> copy.put(String.valueOf(key), copied(value)));
    return copy;
  }

  private static Object copied(Object value) {
    if (value instanceof Map<?, ?> map) {
      return copied(map);
    }
    if (value instanceof List<?> list) {
      List<Object> copy = new ArrayList<>();
      list.forEach(v -> copy.add(copied(v)));
      return copy;
    }
    return value;
  }
}
