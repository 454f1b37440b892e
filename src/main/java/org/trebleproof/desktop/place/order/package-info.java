/** The work order: the job as it is written, section by section. */
package org.trebleproof.desktop.place.order;
