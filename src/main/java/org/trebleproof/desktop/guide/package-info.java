/** What can be read inside the program: the guide, and what it is made of. */
package org.trebleproof.desktop.guide;
