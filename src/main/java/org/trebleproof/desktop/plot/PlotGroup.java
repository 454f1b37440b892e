package org.trebleproof.desktop.plot;

/** What plots one above the other share: the frequency axis, its zoom history, the cursors. */
public final class PlotGroup {}
