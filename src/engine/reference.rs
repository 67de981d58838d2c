//! The reference seam: a check row becomes a call of the public function that the screens use.
