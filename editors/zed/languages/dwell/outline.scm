(block [(cook_head title: (text) @name) (menu_head title: (text) @name)]) @item
(block [
  (kit_head "kit" @context name: (new_name) @name)
  (food_head "food" @context name: (new_name) @name)
  (ingredient_head "ingredient" @context name: (new_name) @name)
  (phase_head "phase" @context name: (new_name) @name)
]) @item
